#include "solver/response/cross_section.hpp"

#include <algorithm>
#include <array>
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

constexpr std::array<int, 2> kept_strains{0, 3};       // e_x, k_x
constexpr std::array<int, 4> free_strains{1, 2, 4, 5}; // N_y = N_xy = M_y = M_xy = 0

// What the free strains do for unit e_x and k_x, 4 x 2.
Eigen::Matrix<double, 4, 2> follow(const Section<double>& s) {
    const Eigen::Matrix<double, 6, 6> C = stiffness8(s).topLeftCorner<6, 6>();
    const Eigen::Matrix4d inner = C(free_strains, free_strains);
    const Eigen::Matrix<double, 4, 2> side = C(free_strains, kept_strains);
    return -inner.ldlt().solve(side);
}

// [A* B*; B* D*]: what e_x and k_x meet.
Eigen::Matrix2d beam_stiffness(const Section<double>& s) {
    const Eigen::Matrix<double, 6, 6> C = stiffness8(s).topLeftCorner<6, 6>();
    const Eigen::Matrix<double, 2, 4> side = C(kept_strains, free_strains);
    return C(kept_strains, kept_strains) + side * follow(s);
}

Eigen::Matrix2d beam_stiffness(const std::vector<PartSection>& parts) {
    Eigen::Matrix2d sum = Eigen::Matrix2d::Zero();
    for (const PartSection& part : parts) {
        sum += (part.y_to - part.y_from) * beam_stiffness(part.section);
    }
    return sum;
}

double bending_stiffness(const std::vector<PartSection>& parts) {
    const Eigen::Matrix2d sum = beam_stiffness(parts);
    return sum(1, 1) - sum(0, 1) * sum(0, 1) / sum(0, 0);
}

// EI is the least energy, times two, at unit curvature: the weights are those of its strains.
void add_bending_weights(const std::vector<PartSection>& parts, SectionWeights& weights) {
    const Eigen::Matrix2d sum = beam_stiffness(parts);
    const Eigen::Vector2d kept(-sum(0, 1) / sum(0, 0), 1);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        Eigen::Matrix<double, 8, 1> strain = Eigen::Matrix<double, 8, 1>::Zero();
        strain(kept_strains) = kept;
        strain(free_strains) = follow(parts[i].section) * kept;
        weights.weight.col(0).segment<section_terms>(section_terms * static_cast<Index>(i)) +=
            (parts[i].y_to - parts[i].y_from) * energy_weights(strain, strain);
    }
}

// Degree of the line elements across the board, and their greatest width: the twisting moment falls
// to zero at the free edge within a few millimetres, which degree 8 follows over 20.
constexpr int line_degree = 8;
constexpr double line_size = 0.02;
constexpr int line_nodes = line_degree + 1;
constexpr int line_columns = 5 * line_nodes + 3;

struct LineElement {
    double y_from, y_to;
    std::size_t part;
};

std::vector<LineElement> line_elements(const std::vector<PartSection>& parts) {
    std::vector<LineElement> elements;
    for (std::size_t p = 0; p < parts.size(); ++p) {
        const double width = parts[p].y_to - parts[p].y_from;
        const int count = static_cast<int>(std::ceil(width / line_size));
        for (int i = 0; i < count; ++i) {
            elements.push_back({parts[p].y_from + width * i / count,
                                parts[p].y_from + width * (i + 1) / count, p});
        }
    }
    return elements;
}

// The state of strain that does not change along x, at twist rate 1:
//   u = x (e0 + c0 y) + u(y)        e_x = e0 + c0 y    e_y = v'     e_xy = u'
//   v = -c0 x^2 / 2 + v(y)          k_x = k0           k_y = by'    k_xy = bx' - 1
//   w = x y - k0 x^2 / 2 + w(y)     g_yz = w' + by     g_xz = y + bx
//   bx = k0 x + bx(y)   by = -x + by(y)
// Unknowns: u v w bx by at the nodes across the board, then e0 c0 k0. Least energy is GJ / 2.
struct TwistState {
    Eigen::Matrix<double, 8, line_columns> by_unknown;
    Eigen::Matrix<double, 8, 1> given;
    double weight = 0;
};

struct LineTables {
    Rule rule = gauss(line_degree + 1);
    VectorXd nodes = lobatto(line_nodes).point;
    MatrixXd N = lagrange(nodes, rule.point), dN = lagrange_slope(nodes, rule.point);
};

TwistState twist_state(const LineTables& tables, const LineElement& element, Index point) {
    const double half = (element.y_to - element.y_from) / 2;
    const double y = element.y_from + half * (1 + tables.rule.point(point));
    TwistState state;
    state.weight = half * tables.rule.weight(point);
    state.by_unknown.setZero();
    auto& E = state.by_unknown;
    for (int i = 0; i < line_nodes; ++i) {
        const double slope = tables.dN(point, i) / half;
        E(2, 5 * i) = slope;     // e_xy = u'
        E(1, 5 * i + 1) = slope; // e_y = v'
        E(6, 5 * i + 2) = slope; // g_yz = w' + by
        E(6, 5 * i + 4) = tables.N(point, i);
        E(5, 5 * i + 3) = slope;              // k_xy = bx' - 1
        E(7, 5 * i + 3) = tables.N(point, i); // g_xz = y + bx
        E(4, 5 * i + 4) = slope;              // k_y = by'
    }
    E(0, line_columns - 3) = 1;
    E(0, line_columns - 2) = y;
    E(3, line_columns - 1) = 1;
    state.given.setZero();
    state.given(5) = -1;
    state.given(7) = y;
    return state;
}

// The twist problem's solution: the line's unknowns, and GJ.
struct Twist {
    double GJ = 0;
    VectorXd motion; // 5 a node across the board, then e0 c0 k0
};

Index twist_unknown(Index first, Index unknown, Index size) {
    return unknown < line_columns - 3 ? first + unknown : size - line_columns + unknown;
}

Twist solve_twist(const std::vector<PartSection>& parts) {
    const LineTables tables;
    const std::vector<LineElement> elements = line_elements(parts);
    const Index size = 5 * (static_cast<Index>(elements.size()) * line_degree + 1) + 3;
    std::vector<Eigen::Triplet<double>> entries;
    VectorXd load = VectorXd::Zero(size);
    double energy = 0;
    Index first = 0;
    for (const LineElement& element : elements) {
        const Matrix8 C = stiffness8(parts[element.part].section);
        MatrixXd K = MatrixXd::Zero(line_columns, line_columns);
        VectorXd f = VectorXd::Zero(line_columns);
        for (Index point = 0; point < tables.rule.point.size(); ++point) {
            const TwistState state = twist_state(tables, element, point);
            const Eigen::Matrix<double, 8, line_columns> CE = C * state.by_unknown;
            K.noalias() += state.weight * state.by_unknown.transpose() * CE;
            f.noalias() -= state.weight * CE.transpose() * state.given;
            energy += state.weight * state.given.dot(C * state.given);
        }
        for (Index j = 0; j < K.cols(); ++j) {
            const Index col = twist_unknown(first, j, size);
            load(col) += f(j);
            for (Index i = j; i < K.rows(); ++i) {
                const Index row = twist_unknown(first, i, size);
                entries.emplace_back(static_cast<int>(std::max(row, col)),
                                     static_cast<int>(std::min(row, col)), K(i, j));
            }
        }
        first += 5 * line_degree;
    }
    // Rigid motions of the cross-section: u, v and w at the first node. Turning about x is w = y,
    // by = -1, held by w at the last.
    for (const Index fixed : {Index(0), Index(1), Index(2), size - 6}) {
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
    VectorXd motion = factor.solve(load);
    return {energy - load.dot(motion), std::move(motion)};
}

void add_twist_weights(const std::vector<PartSection>& parts, SectionWeights& weights) {
    const LineTables tables;
    const Twist twist = solve_twist(parts);
    Index first = 0;
    for (const LineElement& element : line_elements(parts)) {
        VectorXd own(line_columns);
        for (Index i = 0; i < line_columns; ++i) {
            own(i) = twist.motion(twist_unknown(first, i, twist.motion.size()));
        }
        for (Index point = 0; point < tables.rule.point.size(); ++point) {
            const TwistState state = twist_state(tables, element, point);
            const Eigen::Matrix<double, 8, 1> strain = state.by_unknown * own + state.given;
            weights.weight.col(1).segment<section_terms>(section_terms *
                                                         static_cast<Index>(element.part)) +=
                state.weight * energy_weights(strain, strain);
        }
        first += 5 * line_degree;
    }
}

// At a jump the side towards the middle counts.
double beside(double x) {
    constexpr double aside = 1e-7; // [m]
    return x > aside ? x - aside : x < -aside ? x + aside : x;
}

// The parts at station x with their sections. \throws InputError without any
std::vector<PartSection> part_sections(const Layup<double>& layup,
                                       const std::vector<StationPart>& found, double x) {
    std::vector<PartSection> parts;
    const double core = core_thickness(layup, x);
    for (const StationPart& part : found) {
        parts.push_back({part.y_from, part.y_to, section(stack_laminae(layup, part.key, core))});
    }
    if (parts.empty()) {
        throw InputError(layup.board->file,
                         "the board has no width at x = " + std::to_string(x) + " m");
    }
    return parts;
}

} // namespace

CrossSection cross_section(const Board& board, double x) {
    const Layup<double> layup = make_layup<double>(board);
    return cross_section(layup, x);
}

CrossSection cross_section(const Layup<double>& layup, double x) {
    CrossSection result;
    result.x = x;
    result.core_thickness = core_thickness(layup, x);
    const std::vector<PartSection> parts = part_sections(layup, station_parts(layup, beside(x)), x);
    for (const PartSection& part : parts) {
        const double width = part.y_to - part.y_from;
        result.width += width;
        result.mass_per_length += width * part.section.I0;
        if (part.y_from <= 0 && part.y_to > 0) {
            result.thickness = part.section.thickness;
        }
    }
    result.EI = bending_stiffness(parts);
    result.GJ = solve_twist(parts).GJ;
    return result;
}

SectionWeights cross_section_weights(const Layup<double>& layup, double x) {
    const std::vector<StationPart> found = station_parts(layup, beside(x));
    const std::vector<PartSection> parts = part_sections(layup, found, x);
    SectionWeights weights;
    for (const StationPart& part : found) {
        weights.places.push_back({static_cast<int>(weights.stacks.size()), x, 0});
        weights.stacks.push_back(part.key);
    }
    weights.weight = MatrixXd::Zero(section_terms * static_cast<Index>(parts.size()), 2);
    add_bending_weights(parts, weights);
    add_twist_weights(parts, weights);
    return weights;
}

} // namespace vrid
