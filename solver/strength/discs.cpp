#include "solver/strength/discs.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <set>
#include <tuple>

#include <Eigen/LU>

#include "mesh/lobatto.hpp"
#include "solver/element/director_shell.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::Vector2d;

constexpr int shape_points = 4; // sides as cubics: within 0.01 mm of the outline's
constexpr double cell = 8e-3;   // of the grid that finds quads [m]
constexpr double spacing = 15e-3;
constexpr int most_intervals = 6;

// Values of the Lagrange polynomials through the nodes, and their slopes if wanted.
template <int n>
Eigen::Matrix<double, n, 1> lagrange_at(const Eigen::VectorXd& nodes, double x,
                                        Eigen::Matrix<double, n, 1>* slope = nullptr) {
    Eigen::Matrix<double, n, 1> value;
    for (int i = 0; i < n; ++i) {
        double product = 1;
        double by_x = 0;
        for (int k = 0; k < n; ++k) {
            if (k != i) {
                const double gap = nodes(i) - nodes(k);
                by_x = (by_x * (x - nodes(k)) + product) / gap;
                product *= (x - nodes(k)) / gap;
            }
        }
        value(i) = product;
        if (slope != nullptr) {
            (*slope)(i) = by_x;
        }
    }
    return value;
}

const Eigen::VectorXd& shape_nodes() {
    static const Eigen::VectorXd nodes = lobatto(shape_points).point;
    return nodes;
}

using ShapeRow = Eigen::Matrix<double, shape_points, 1>;
using ShapeMap = Eigen::Map<const Eigen::Matrix<double, 2 * shape_points, shape_points>>;

// sum_ij X(i, j) a_i b_j
Vector2d combine(const Eigen::Matrix2Xd& X, const ShapeRow& a, const ShapeRow& b) {
    const Eigen::Matrix<double, 2 * shape_points, 1> rows = ShapeMap(X.data()) * b;
    return Eigen::Map<const Eigen::Matrix<double, 2, shape_points>>(rows.data()) * a;
}

struct PolarRule {
    std::vector<Vector2d> point; // of the unit disc
    std::vector<double> weight;  // they add up to pi
};

// Symmetric about both axes, so that a mirrored board has mirrored means.
PolarRule polar_rule(int radii, int angles) {
    const Rule rule = gauss(radii);
    PolarRule polar;
    for (int i = 0; i < radii; ++i) {
        const double r = (1 + rule.point(i)) / 2;
        for (int k = 0; k < angles; ++k) {
            const double turn = (k + 0.5) * 2 * std::numbers::pi / angles;
            polar.point.emplace_back(r * std::cos(turn), r * std::sin(turn));
            polar.weight.push_back(rule.weight(i) / 2 * r * 2 * std::numbers::pi / angles);
        }
    }
    return polar;
}

} // namespace

Eigen::VectorXd mean_strain_load(const PlateModel& model, const Disc& disc,
                                 const std::vector<char>& held,
                                 const Eigen::Matrix<double, 8, 1>& by) {
    const ReferenceElement reference = reference_element(model.reference.p, strain_nodes());
    Eigen::VectorXd load = Eigen::VectorXd::Zero(model.unknowns());
    double area = 0;
    for (const DiscPart& part : disc.parts) {
        area += held[static_cast<std::size_t>(part.quad)] == 0 ? part.area : 0;
    }
    for (const DiscPart& part : disc.parts) {
        if (held[static_cast<std::size_t>(part.quad)] != 0) {
            continue;
        }
        const std::vector<int>& nodes =
            model.numbering.quad_nodes[static_cast<std::size_t>(part.quad)];
        const ElementTables tables =
            element_tables(reference, element_nodes(model, part.quad), model.rest.get());
        Eigen::VectorXd unit =
            Eigen::VectorXd::Zero(unknowns_per_node * static_cast<Index>(nodes.size()));
        for (Index k = 0; k < unit.size(); ++k) {
            unit(k) = 1;
            const auto node = static_cast<std::size_t>(k / unknowns_per_node);
            load(Index(unknowns_per_node) * nodes[node] + k % unknowns_per_node) +=
                by.dot(element_strains(reference, tables, unit) * part.weight) / area;
            unit(k) = 0;
        }
    }
    return load;
}

std::optional<Eigen::Matrix<double, 8, 1>> mean_strain(const Disc& disc, const StrainField& strain,
                                                       const std::vector<char>& held) {
    Eigen::Matrix<double, 8, 1> sum = Eigen::Matrix<double, 8, 1>::Zero();
    double area = 0;
    for (const DiscPart& part : disc.parts) {
        const auto quad = static_cast<std::size_t>(part.quad);
        if (held[quad] == 0) {
            sum += strain[quad] * part.weight;
            area += part.area;
        }
    }
    const bool inside_held = std::all_of(disc.homes.begin(), disc.homes.end(), [&](int quad) {
        return held[static_cast<std::size_t>(quad)] != 0;
    });
    if (area <= 0 || inside_held) {
        return std::nullopt;
    }
    return sum / area;
}

DiscMaker::DiscMaker(const Mesh& mesh, SectionCache& sections) : sections_(sections) {
    const Eigen::MatrixXd to_shape = geometry_to_points(mesh, shape_nodes());
    const Eigen::MatrixXd to_inner = geometry_to_points(mesh, gauss(2).point);
    Vector2d low(HUGE_VAL, HUGE_VAL);
    Vector2d high = -low;
    for (int quad = 0; quad < static_cast<int>(mesh.quads.size()); ++quad) {
        shape_.push_back(quad_points(mesh, quad, to_shape));
        stack_.push_back(common_stack(quad_points(mesh, quad, to_inner), 2, sections));
        low = low.cwiseMin(shape_.back().rowwise().minCoeff());
        high = high.cwiseMax(shape_.back().rowwise().maxCoeff());
    }
    origin_ = low - Vector2d::Constant(cell);
    columns_ = static_cast<int>((high.x() - origin_.x()) / cell) + 2;
    rows_ = static_cast<int>((high.y() - origin_.y()) / cell) + 2;
    cells_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
    for (std::size_t quad = 0; quad < shape_.size(); ++quad) {
        constexpr double rim = 1e-4; // sides bulge between their points
        const Vector2d from = shape_[quad].rowwise().minCoeff() - origin_ - Vector2d::Constant(rim);
        const Vector2d to = shape_[quad].rowwise().maxCoeff() - origin_ + Vector2d::Constant(rim);
        for (int j = static_cast<int>(from.y() / cell); j <= static_cast<int>(to.y() / cell); ++j) {
            for (int i = static_cast<int>(from.x() / cell); i <= static_cast<int>(to.x() / cell);
                 ++i) {
                cells_[static_cast<std::size_t>(j * columns_ + i)].push_back(
                    static_cast<int>(quad));
            }
        }
    }
}

Vector2d DiscMaker::position(int quad, const Vector2d& xi) const {
    return combine(shape_[static_cast<std::size_t>(quad)],
                   lagrange_at<shape_points>(shape_nodes(), xi.x()),
                   lagrange_at<shape_points>(shape_nodes(), xi.y()));
}

std::optional<Vector2d> DiscMaker::inside(int quad, const Vector2d& p, double margin) const {
    const Eigen::Matrix2Xd& X = shape_[static_cast<std::size_t>(quad)];
    Vector2d xi(0, 0);
    for (int step = 0; step < 12; ++step) {
        ShapeRow da;
        ShapeRow db;
        const ShapeRow a = lagrange_at<shape_points>(shape_nodes(), xi.x(), &da);
        const ShapeRow b = lagrange_at<shape_points>(shape_nodes(), xi.y(), &db);
        Eigen::Matrix2d J;
        J << combine(X, da, b), combine(X, a, db);
        const Vector2d change = J.inverse() * (p - combine(X, a, b));
        xi += change;
        if (!(xi.cwiseAbs().maxCoeff() < 4)) {
            return std::nullopt; // far away: a point near by converges
        }
        if (change.cwiseAbs().maxCoeff() < 1e-10) {
            break;
        }
    }
    if (xi.cwiseAbs().maxCoeff() > 1 + margin) {
        return std::nullopt;
    }
    return xi;
}

const std::vector<int>& DiscMaker::near(const Vector2d& p) const {
    static const std::vector<int> none;
    const int i = static_cast<int>(std::floor((p.x() - origin_.x()) / cell));
    const int j = static_cast<int>(std::floor((p.y() - origin_.y()) / cell));
    return i < 0 || j < 0 || i >= columns_ || j >= rows_
               ? none
               : cells_[static_cast<std::size_t>(j * columns_ + i)];
}

int DiscMaker::stack_at(const Spot& spot, const Vector2d& p) {
    const int whole = stack_[static_cast<std::size_t>(spot.quad)];
    return whole >= 0 ? whole : sections_.stack_index(p);
}

std::optional<DiscMaker::Spot> DiscMaker::find(const Vector2d& p, int stack, int first_quad) {
    const auto fits = [&](int quad) -> std::optional<Spot> {
        if (const auto xi = inside(quad, p)) {
            const Spot spot{quad, *xi};
            if (stack < 0 || stack_at(spot, p) == stack) {
                return spot;
            }
        }
        return std::nullopt;
    };
    if (first_quad >= 0) {
        if (const auto spot = fits(first_quad)) {
            return spot;
        }
    }
    for (const int quad : near(p)) {
        const int whole = stack_[static_cast<std::size_t>(quad)];
        if (quad != first_quad && (stack < 0 || whole < 0 || whole == stack)) {
            if (const auto spot = fits(quad)) {
                return spot;
            }
        }
    }
    return std::nullopt;
}

void DiscMaker::add_point(Disc& disc, const Vector2d& p, double area) {
    const auto spot = find(p, disc.stack, disc.parts.empty() ? disc.quad : disc.parts.back().quad);
    if (!spot) {
        return;
    }
    auto part = std::find_if(disc.parts.begin(), disc.parts.end(),
                             [&](const DiscPart& one) { return one.quad == spot->quad; });
    if (part == disc.parts.end()) {
        disc.parts.push_back({spot->quad, 0, Eigen::VectorXd::Zero(strain_points * strain_points)});
        part = disc.parts.end() - 1;
    }
    part->area += area;
    const auto a = lagrange_at<strain_points>(strain_nodes(), spot->xi.x());
    const auto b = lagrange_at<strain_points>(strain_nodes(), spot->xi.y());
    for (int j = 0; j < strain_points; ++j) {
        part->weight.segment<strain_points>(strain_points * j) += area * b(j) * a;
    }
}

void DiscMaker::find_homes(Disc& disc) {
    disc.homes.push_back(disc.quad);
    for (const int quad : near(disc.centre)) {
        const int whole = stack_[static_cast<std::size_t>(quad)];
        if (quad != disc.quad && (whole < 0 || whole == disc.stack) &&
            inside(quad, disc.centre, 1e-4)) {
            disc.homes.push_back(quad);
        }
    }
}

Disc DiscMaker::disc(const Spot& spot, const Vector2d& p, int stack, double scale) {
    static const PolarRule coarse = polar_rule(3, 8);
    static const PolarRule fine = polar_rule(5, 32);
    static const PolarRule finest = polar_rule(12, 96);
    Disc disc{p, spot.quad, stack, 0, {}, {}};
    find_homes(disc);
    disc.diameter = scale * std::max(least_diameter, sections_.section(stack, p).thickness);
    const double radius = disc.diameter / 2;
    bool within = stack_[static_cast<std::size_t>(spot.quad)] >= 0;
    for (int k = 0; k < 8 && within; ++k) {
        const double turn = k * std::numbers::pi / 4;
        within =
            inside(spot.quad, p + radius * Vector2d(std::cos(turn), std::sin(turn))).has_value();
    }
    const auto integrate = [&](const PolarRule& rule) {
        disc.parts.clear();
        for (std::size_t i = 0; i < rule.point.size(); ++i) {
            add_point(disc, p + radius * rule.point[i], radius * radius * rule.weight[i]);
        }
    };
    integrate(within ? coarse : fine);
    double area = 0;
    for (const DiscPart& part : disc.parts) {
        area += part.area;
    }
    constexpr double narrow = 0.3; // of the disc: a band of an edge, say, which few points meet
    if (area < narrow * std::numbers::pi * radius * radius) {
        integrate(finest);
    }
    return disc;
}

std::optional<Disc> DiscMaker::at(const Vector2d& point, int stack, double scale) {
    const auto spot = find(point, stack, -1);
    if (!spot) {
        return std::nullopt;
    }
    Disc made = disc(*spot, point, stack >= 0 ? stack : stack_at(*spot, point), scale);
    return made.parts.empty() ? std::nullopt : std::optional(std::move(made));
}

std::vector<Disc> DiscMaker::all() {
    std::vector<Disc> discs;
    std::set<std::tuple<std::int64_t, std::int64_t, int>> known;
    const auto intervals = [](double length) {
        return std::clamp(static_cast<int>(std::ceil(length / spacing)), 1, most_intervals);
    };
    for (int quad = 0; quad < static_cast<int>(shape_.size()); ++quad) {
        const auto length = [&](const Vector2d& a, const Vector2d& b) {
            return (position(quad, a) - position(quad, b)).norm();
        };
        const int nx = intervals(std::max(length({-1, -1}, {1, -1}), length({-1, 1}, {1, 1})));
        const int ny = intervals(std::max(length({-1, -1}, {-1, 1}), length({1, -1}, {1, 1})));
        for (int j = 0; j <= ny; ++j) {
            for (int i = 0; i <= nx; ++i) {
                const Spot spot{quad, {2.0 * i / nx - 1, 2.0 * j / ny - 1}};
                const Vector2d p = position(quad, spot.xi);
                const int stack = stack_at(spot, p);
                constexpr double same = 1e-6; // [m]
                if (known.insert({std::llround(p.x() / same), std::llround(p.y() / same), stack})
                        .second) {
                    discs.push_back(disc(spot, p, stack));
                    if (discs.back().parts.empty()) {
                        discs.pop_back();
                    }
                }
            }
        }
    }
    return discs;
}

} // namespace vrid
