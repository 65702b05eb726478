#include "mesh/board/outline_smoothing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <Eigen/SparseCholesky>

namespace vrid {

using Eigen::MatrixX2d;
using Points = std::vector<Eigen::Vector2d>;

namespace {

using Matrix = Eigen::SparseMatrix<double>;

// Four neighbours, no corner between them: third derivative of a coordinate by chord length.
struct Stencil {
    std::array<Index, 4> at{};
    std::array<double, 4> weight{}; // [1/m3]
    double length = 0;              // mean of its three chords [m]
    double size = 0;                // norm of the weights
};

Stencil stencil_from(const Points& points, std::size_t first) {
    const std::size_t n = points.size();
    Stencil s;
    std::array<double, 4> t{};
    for (std::size_t k = 0; k < 4; ++k) {
        const std::size_t here = (first + k) % n;
        s.at[k] = static_cast<Index>(here);
        t[k] = k == 0 ? 0 : t[k - 1] + (points[here] - points[(here + n - 1) % n]).norm();
    }
    double squares = 0;
    for (std::size_t k = 0; k < 4; ++k) {
        double product = 1;
        for (std::size_t j = 0; j < 4; ++j) {
            product *= j == k ? 1 : t[k] - t[j];
        }
        s.weight[k] = 6 / product; // three times the divided difference's, as for t^3
        squares += s.weight[k] * s.weight[k];
    }
    s.length = t[3] / 3;
    s.size = std::sqrt(squares);
    return s;
}

std::vector<Stencil> stencils_of(const Points& points, const std::vector<bool>& corner) {
    const std::size_t n = points.size();
    std::vector<Stencil> stencils;
    for (std::size_t i = 0; i < n; ++i) {
        if (!corner[(i + 1) % n] && !corner[(i + 2) % n]) {
            stencils.push_back(stencil_from(points, i));
        }
    }
    return stencils;
}

// Points inside the square that rounding leaves open round each, and the energies minimised over
// them.
class OpenPoints {
  public:
    OpenPoints(const Points& points, std::vector<Stencil> stencils, double tolerance)
        : data_(static_cast<Index>(points.size()), 2), moves_(data_.rows(), 2),
          stencils_(std::move(stencils)), tolerance_(tolerance) {
        for (Index i = 0; i < data_.rows(); ++i) {
            data_.row(i) = points[static_cast<std::size_t>(i)].transpose();
        }
        moves_.setZero();
    }

    [[nodiscard]] const std::vector<Stencil>& stencils() const { return stencils_; }
    [[nodiscard]] Index count() const { return data_.rows(); }
    [[nodiscard]] MatrixX2d positions() const { return data_ + tolerance_ * moves_; }

    /// Squared third derivatives, x and y together, one a stencil.
    [[nodiscard]] VectorXd roughness() const {
        return third_derivatives(0, moves_.col(0)).cwiseAbs2() +
               third_derivatives(1, moves_.col(1)).cwiseAbs2();
    }

    /// Moves the points to where
    ///     1/2 sum_k stiffness_k third_k^2 - sum_i log(1 - (move_i / tolerance)^2)
    /// is least, for x and y each: strictly convex and self-concordant, so that Newton's method
    /// with steps of at least 1 / (1 + decrement) comes to the one answer from anywhere inside
    /// (Nesterov and Nemirovski, 1994, from memory).
    void settle(const VectorXd& stiffness, double accuracy) {
        const Matrix energy = energy_matrix(stiffness);
        Eigen::SimplicialLDLT<Matrix> factor;
        factor.analyzePattern(energy);
        for (Index axis = 0; axis < 2; ++axis) {
            VectorXd r = moves_.col(axis);
            constexpr int most_steps = 100;
            double decrement = std::numeric_limits<double>::infinity();
            for (int step = 0; step < most_steps && decrement > accuracy; ++step) {
                const Eigen::ArrayXd room = 1 - r.array().square();
                const VectorXd gradient = pull(stiffness.cwiseProduct(third_derivatives(axis, r))) +
                                          (2 * r.array() / room).matrix();
                Matrix hessian = energy;
                hessian.diagonal() += (2 * (1 + r.array().square()) / room.square()).matrix();
                factor.factorize(hessian);
                const VectorXd way = -factor.solve(gradient);
                decrement = std::sqrt(std::max(0.0, -gradient.dot(way)));
                r += step_length(r, way, decrement) * way;
            }
            moves_.col(axis) = r;
        }
    }

  private:
    // By differences from the first of four neighbours: of whole coordinates their small third
    // differences would keep too few digits for mirror images to stay mirror images.
    [[nodiscard]] VectorXd third_derivatives(Index axis, const VectorXd& r) const {
        VectorXd third(static_cast<Index>(stencils_.size()));
        for (Index k = 0; k < third.size(); ++k) {
            const Stencil& s = stencils_[static_cast<std::size_t>(k)];
            third[k] = 0;
            for (std::size_t a = 1; a < 4; ++a) {
                third[k] += s.weight[a] * ((data_(s.at[a], axis) - data_(s.at[0], axis)) +
                                           tolerance_ * (r[s.at[a]] - r[s.at[0]]));
            }
        }
        return third;
    }

    // What forces on the third derivatives are on the points.
    [[nodiscard]] VectorXd pull(const VectorXd& force) const {
        VectorXd sum = VectorXd::Zero(count());
        for (Index k = 0; k < force.size(); ++k) {
            const Stencil& s = stencils_[static_cast<std::size_t>(k)];
            for (std::size_t a = 0; a < 4; ++a) {
                sum[s.at[a]] += tolerance_ * s.weight[a] * force[k];
            }
        }
        return sum;
    }

    // Moves are in units of the tolerance.
    [[nodiscard]] Matrix energy_matrix(const VectorXd& stiffness) const {
        std::vector<Eigen::Triplet<double>> entries;
        entries.reserve(16 * stencils_.size() + static_cast<std::size_t>(count()));
        for (Index k = 0; k < stiffness.size(); ++k) {
            const Stencil& s = stencils_[static_cast<std::size_t>(k)];
            for (std::size_t a = 0; a < 4; ++a) {
                for (std::size_t b = 0; b < 4; ++b) {
                    const double value = stiffness[k] * s.weight[a] * s.weight[b];
                    entries.emplace_back(s.at[a], s.at[b], tolerance_ * tolerance_ * value);
                }
            }
        }
        for (Index i = 0; i < count(); ++i) {
            entries.emplace_back(i, i, 0.0);
        }
        Matrix energy(count(), count());
        energy.setFromTriplets(entries.begin(), entries.end());
        return energy;
    }

    // As far as one, but not through a wall, and at least the step that is always safe.
    static double step_length(const VectorXd& r, const VectorXd& way, double decrement) {
        double length = 1;
        for (Index i = 0; i < r.size(); ++i) {
            if (way[i] != 0) {
                length = std::min(length, 0.9 * ((way[i] > 0 ? 1 : -1) - r[i]) / way[i]);
            }
        }
        return std::max(length, 1 / (1 + decrement));
    }

    MatrixX2d data_, moves_;
    std::vector<Stencil> stencils_;
    double tolerance_;
};

VectorXd lengths_of(const OpenPoints& open) {
    VectorXd length(static_cast<Index>(open.stencils().size()));
    for (Index k = 0; k < length.size(); ++k) {
        length[k] = open.stencils()[static_cast<std::size_t>(k)].length;
    }
    return length;
}

// Third derivatives that moves of the tolerance alone would give.
VectorXd noise_of(const OpenPoints& open, double tolerance) {
    VectorXd noise(static_cast<Index>(open.stencils().size()));
    for (Index k = 0; k < noise.size(); ++k) {
        noise[k] = tolerance * open.stencils()[static_cast<std::size_t>(k)].size;
    }
    return noise;
}

// The smoothest points that the rounding leaves open: least integral of the squared third
// derivative. The barrier's share of the optimum is known, 2 a coordinate, so the stiffness grows
// until it is a tenth; of points that can lie on parabolas altogether there is no such optimum, and
// no more to be seen in them than rounding leaves in double precision.
void make_smoothest(OpenPoints& open, const VectorXd& length, const VectorXd& noise) {
    constexpr double barrier_share = 0.1;
    constexpr int most_growths = 10;
    double stiffness = 1 / (length.array() * noise.array().square()).maxCoeff();
    for (int grown = 0; grown < most_growths; ++grown, stiffness *= 10) {
        open.settle(stiffness * length, 1e-2);
        const double energy = stiffness * length.dot(open.roughness()) / 2;
        if (4.0 * static_cast<double>(open.count()) < barrier_share * energy) {
            return;
        }
    }
}

// What the drawing shows of third derivatives near each stencil: their mean square over five
// neighbours, the nearer ones counting more.
VectorXd local_mean(const VectorXd& squares, const VectorXd& length) {
    constexpr Index reach = 2;
    const Index count = squares.size();
    VectorXd mean(count);
    for (Index k = 0; k < count; ++k) {
        double sum = 0;
        double weights = 0;
        for (Index j = -reach; j <= reach; ++j) {
            const Index at = ((k + j) % count + count) % count;
            const double weight = static_cast<double>(reach + 1 - std::abs(j)) * length[at];
            sum += weight * squares[at];
            weights += weight;
        }
        mean[k] = sum / weights;
    }
    return mean;
}

} // namespace

// Two steps, as one does it by eye. First the smoothest points of all: they show how much the third
// derivative must vary, place by place (much at the tips, hardly along the sidecut). Alone they
// would lean on the walls of the rounding wherever the shape really varies. So then the points that
// lie most in the middle of their rounding for variations of that size: where the drawing shows
// more than rounding could, they stay where they are drawn. What they show then is taken again.
Points smoothed_points(const Points& points, const std::vector<bool>& corner, double tolerance) {
    // Moves of less than the accuracy of an outline show nowhere; and of coordinates in all digits
    // that double precision has, the variations are up to 1e16 roundings: points that lean on the
    // walls so hard have no digits left between them.
    constexpr double least_tolerance = 1e-9;
    std::vector<Stencil> stencils = stencils_of(points, corner);
    if (tolerance < least_tolerance || stencils.empty()) {
        return points;
    }
    OpenPoints open(points, std::move(stencils), tolerance);
    const VectorXd length = lengths_of(open);
    const VectorXd noise = noise_of(open, tolerance);
    make_smoothest(open, length, noise);
    constexpr double least = 1e-4; // of the noise: straight lines have no third derivative at all
    constexpr int rounds = 4;      // the exact outline is met closer by each, then no more
    for (int round = 0; round < rounds; ++round) {
        const VectorXd shown =
            local_mean(open.roughness(), length) + (least * noise).array().square().matrix();
        open.settle(shown.cwiseInverse(), 1e-8);
    }
    const MatrixX2d at = open.positions();
    Points smooth;
    for (Index i = 0; i < at.rows(); ++i) {
        smooth.emplace_back(at.row(i).transpose());
    }
    return smooth;
}

} // namespace vrid
