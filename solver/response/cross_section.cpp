#include "solver/response/cross_section.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include <Eigen/Cholesky>
#include <Eigen/SparseCholesky>

#include "mesh/board/error.hpp"
#include "solver/element/quadrature.hpp"
#include "solver/response/station.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using Matrix8 = Eigen::Matrix<double, 8, 8>;

struct PartSection {
    double y_from, y_to;
    Section<double> section;
};

// A B; B D on the membrane and curvature components, S on the shears.
Matrix8 stiffness8(const Section<double>& s) {
    Matrix8 C = Matrix8::Zero();
    C.block<3, 3>(0, 0) = s.A;
    C.block<3, 3>(0, 3) = s.B;
    C.block<3, 3>(3, 0) = s.B;
    C.block<3, 3>(3, 3) = s.D;
    C.block<2, 2>(6, 6) = s.S;
    return C;
}

// [A* B*; B* D*]: what e_x and k_x meet when N_y = N_xy = M_y = M_xy = 0.
Eigen::Matrix2d beam_stiffness(const Section<double>& s) {
    const Eigen::Matrix<double, 6, 6> C = stiffness8(s).topLeftCorner<6, 6>();
    const std::array<int, 2> keep{0, 3};
    const std::array<int, 4> free{1, 2, 4, 5};
    const Eigen::Matrix4d inner = C(free, free);
    const Eigen::Matrix<double, 4, 2> side = C(free, keep);
    return C(keep, keep) - side.transpose() * inner.ldlt().solve(side);
}

double bending_stiffness(const std::vector<PartSection>& parts) {
    Eigen::Matrix2d sum = Eigen::Matrix2d::Zero();
    for (const PartSection& part : parts) {
        sum += (part.y_to - part.y_from) * beam_stiffness(part.section);
    }
    return sum(1, 1) - sum(0, 1) * sum(0, 1) / sum(0, 0);
}

// Degree of the line elements across the board, and their greatest width: the twisting moment falls
// to zero at the free edge within a few millimetres, which degree 8 follows over 20.
constexpr int line_degree = 8;
constexpr double line_size = 0.02;

// The state of strain that does not change along x, at twist rate 1:
//   u = x (e0 + c0 y) + u(y)        e_x = e0 + c0 y    e_y = v'     e_xy = u'
//   v = -c0 x^2 / 2 + v(y)          k_x = k0           k_y = by'    k_xy = bx' - 1
//   w = x y - k0 x^2 / 2 + w(y)     g_yz = w' + by     g_xz = y + bx
//   bx = k0 x + bx(y)   by = -x + by(y)
// Unknowns: u v w bx by at the nodes across the board, then e0 c0 k0. Least energy is GJ / 2.
double twist_stiffness(const std::vector<PartSection>& parts) {
    const Rule rule = gauss(line_degree + 1);
    const VectorXd nodes = lobatto(line_degree + 1).point;
    const MatrixXd N = lagrange(nodes, rule.point);
    const MatrixXd dN = lagrange_slope(nodes, rule.point);
    constexpr int k = line_degree + 1;

    struct LineElement {
        double y_from, y_to;
        const Section<double>* section;
    };
    std::vector<LineElement> elements;
    for (const PartSection& part : parts) {
        const double width = part.y_to - part.y_from;
        const int count = static_cast<int>(std::ceil(width / line_size));
        for (int i = 0; i < count; ++i) {
            elements.push_back({part.y_from + width * i / count,
                                part.y_from + width * (i + 1) / count, &part.section});
        }
    }
    const Index line_unknowns = 5 * (static_cast<Index>(elements.size()) * line_degree + 1);
    const Index size = line_unknowns + 3;
    std::vector<Eigen::Triplet<double>> entries;
    VectorXd load = VectorXd::Zero(size);
    double energy = 0;
    Index first = 0;
    for (const LineElement& element : elements) {
        const double half = (element.y_to - element.y_from) / 2;
        const Matrix8 C = stiffness8(*element.section);
        MatrixXd K = MatrixXd::Zero(5 * k + 3, 5 * k + 3);
        VectorXd f = VectorXd::Zero(5 * k + 3);
        for (Index point = 0; point < rule.point.size(); ++point) {
            const double y = element.y_from + half * (1 + rule.point(point));
            const double weight = half * rule.weight(point);
            Eigen::Matrix<double, 8, 5 * k + 3> E = Eigen::Matrix<double, 8, 5 * k + 3>::Zero();
            for (int i = 0; i < k; ++i) {
                const double slope = dN(point, i) / half;
                E(2, 5 * i) = slope;     // e_xy = u'
                E(1, 5 * i + 1) = slope; // e_y = v'
                E(6, 5 * i + 2) = slope; // g_yz = w' + by
                E(6, 5 * i + 4) = N(point, i);
                E(5, 5 * i + 3) = slope;       // k_xy = bx' - 1
                E(7, 5 * i + 3) = N(point, i); // g_xz = y + bx
                E(4, 5 * i + 4) = slope;       // k_y = by'
            }
            E(0, 5 * k) = 1;
            E(0, 5 * k + 1) = y;
            E(3, 5 * k + 2) = 1;
            Eigen::Matrix<double, 8, 1> given = Eigen::Matrix<double, 8, 1>::Zero();
            given(5) = -1;
            given(7) = y;
            const Eigen::Matrix<double, 8, 5 * k + 3> CE = C * E;
            K.noalias() += weight * E.transpose() * CE;
            f.noalias() -= weight * CE.transpose() * given;
            energy += weight * given.dot(C * given);
        }
        const auto global = [&](Index i) {
            return i < 5 * k ? first + i : line_unknowns + i - 5 * k;
        };
        for (Index j = 0; j < K.cols(); ++j) {
            load(global(j)) += f(j);
            for (Index i = j; i < K.rows(); ++i) {
                entries.emplace_back(static_cast<int>(std::max(global(i), global(j))),
                                     static_cast<int>(std::min(global(i), global(j))), K(i, j));
            }
        }
        first += 5 * line_degree;
    }
    // Rigid motions of the cross-section: u, v and w at the first node. Turning about x is w = y,
    // by = -1, held by w at the last.
    for (const Index fixed : {Index(0), Index(1), Index(2), line_unknowns - 3}) {
        load(fixed) = 0;
        entries.erase(
            std::remove_if(entries.begin(), entries.end(),
                           [fixed](const auto& t) { return t.row() == fixed || t.col() == fixed; }),
            entries.end());
        entries.emplace_back(static_cast<int>(fixed), static_cast<int>(fixed), 1.0);
    }
    Eigen::SparseMatrix<double> K(size, size);
    K.setFromTriplets(entries.begin(), entries.end());
    const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower,
                                Eigen::NaturalOrdering<int>>
        factor(K);
    if (factor.info() != Eigen::Success) {
        throw SolveError("cross-section", "the twist problem across the board is singular");
    }
    const VectorXd motion = factor.solve(load);
    return energy - load.dot(motion);
}

} // namespace

CrossSection cross_section(const Board& board, double x) {
    const Layup<double> layup = make_layup<double>(board);
    return cross_section(layup, x);
}

CrossSection cross_section(const Layup<double>& layup, double x) {
    constexpr double aside = 1e-7; // clear of a jump at x, towards the middle [m]
    const double inside = x > aside ? x - aside : x < -aside ? x + aside : x;
    const Board& board = *layup.board;
    CrossSection result;
    result.x = x;
    result.core_thickness = core_thickness(layup, x);
    std::vector<PartSection> parts;
    for (const StationPart& part : station_parts(layup, inside)) {
        parts.push_back({part.y_from, part.y_to,
                         section(stack_laminae(layup, part.key, result.core_thickness))});
        const double width = part.y_to - part.y_from;
        result.width += width;
        result.mass_per_length += width * parts.back().section.I0;
        if (part.y_from <= 0 && part.y_to > 0) {
            result.thickness = parts.back().section.thickness;
        }
    }
    if (parts.empty()) {
        throw InputError(board.file, "the board has no width at x = " + std::to_string(x) + " m");
    }
    result.EI = bending_stiffness(parts);
    result.GJ = twist_stiffness(parts);
    return result;
}

} // namespace vrid
