#include "solver/response/line_twist.hpp"

#include <array>
#include <cmath>
#include <utility>

#include <Eigen/Cholesky>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/system/dense_solve.hpp"

namespace vrid {

// u, v and w come into the strains by u', v' and w' alone, by through by' and beside w'; these
// slopes may be any polynomials of degree 7 in each element. So e_y, e_xy, k_y and g_yz are free in
// every Legendre polynomial up to degree 6 and follow the other strains there (N_y = N_xy = M_y =
// Q_y = 0); in degree 7 k_y is not, since it brings along degree 8 of by, which no w' meets. What
// is left of the unknowns: the shear s = g_xz = y + bx across the board, with k_xy = s' - 2, that
// one coefficient of k_y in each element, e0, c0 and k0. (bx would do, but is nearly -y: digits
// lost.)
//
// Strains are written in the Legendre polynomials p_k normed on [-1, 1], in which an integral of
// energy is a sum over k. An element's s: its values at the ends, and its slopes p_1 .. p_7.

namespace {

using Matrix8 = Eigen::Matrix<double, 8, 8>;

constexpr int degree = 8;
constexpr double greatest_width = 0.02; // of an element [m]

enum Strain { e_x, e_y, e_xy, k_x, k_y, k_xy, g_yz, g_xz };

// Columns of an element: slopes 1 .. 7 of s and the last k_y are inside it; `given` is what unit
// twist rate imposes.
enum Column { last_k_y = 7, right, left, e0, c0, k0, given, columns };
constexpr int inner = right, outer = columns - inner;
constexpr Index global = 4; // e0 c0 k0 given

using ModeStrain = Eigen::Matrix<double, 8, columns>;
using Outer = Eigen::Matrix<double, outer, outer>;

// int_-1^x p_k = step(k + 1) p_(k+1) - step(k) p_(k-1), from (2k + 1) P_k = P_(k+1)' - P_(k-1)'
double step(int k) {
    return 1 / std::sqrt((2.0 * k - 1) * (2.0 * k + 1));
}

// The imposed strains of an element of half width `half` about y = 0, by mode.
std::array<ModeStrain, degree + 1> imposed_strains(double half) {
    std::array<ModeStrain, degree + 1> E;
    E.fill(ModeStrain::Zero());
    const double one = std::sqrt(2.0);        // 1 = one p_0
    const double line = std::sqrt(2.0 / 3.0); // x = line p_1
    E[0](e_x, e0) = E[0](k_x, k0) = one;
    E[1](e_x, c0) = half * line;
    E[0](k_xy, given) = -2 * one;
    for (const auto& [end, sign] : {std::pair{right, -1}, std::pair{left, 1}}) {
        E[0](g_xz, end) = one / 2;
        E[1](g_xz, end) = sign * line / 2;
        E[0](k_xy, end) = sign * one / (2 * half);
    }
    for (int k = 1; k < degree; ++k) {
        const auto slope = static_cast<std::size_t>(k);
        E[slope](k_xy, k - 1) = 1;
        E[slope + 1](g_xz, k - 1) = half * step(k + 1);
        E[slope - 1](g_xz, k - 1) = -half * step(k);
    }
    E[degree - 1](k_y, last_k_y) = 1;
    E[degree](g_yz, last_k_y) = half * step(degree);
    return E;
}

// Strains from imposed ones: the free among them follow, with no force of their own.
template <std::size_t n> Matrix8 with_followers(const Matrix8& C, const std::array<int, n>& free) {
    Matrix8 follow = Matrix8::Identity();
    follow(free, Eigen::all).setZero();
    const Eigen::Matrix<double, int(n), int(n)> own = C(free, free);
    const Eigen::Matrix<double, int(n), 8> side = C(free, Eigen::all) * follow;
    follow(free, Eigen::all) = -solve_symmetric(own, side);
    return follow;
}

// One part's elements, all alike but for where they are.
struct PartElements {
    int count = 0;
    double half = 0;                            // width of one, halved [m]
    std::array<ModeStrain, degree + 1> strains; // of one about y = 0
    Eigen::Matrix<double, inner, outer> inside; // what the inner unknowns do for the outer
    Outer K;                                    // inner unknowns eliminated
};

PartElements part_elements(const PartSection& part) {
    PartElements result;
    const double width = part.y_to - part.y_from;
    result.count = static_cast<int>(std::ceil(width / greatest_width));
    result.half = width / result.count / 2;
    const Matrix8 C = stiffness8(part.section);
    const Matrix8 low = with_followers(C, std::array<int, 4>{e_y, e_xy, k_y, g_yz});
    const Matrix8 seven = with_followers(C, std::array<int, 3>{e_y, e_xy, g_yz});
    result.strains = imposed_strains(result.half);
    Eigen::Matrix<double, columns, columns> K = Eigen::Matrix<double, columns, columns>::Zero();
    for (int k = 0; k <= degree; ++k) {
        ModeStrain& E = result.strains[static_cast<std::size_t>(k)];
        if (k < degree) {
            E = (k < degree - 1 ? low : seven) * ModeStrain(E);
        }
        const ModeStrain CE = C * E;
        K.noalias() += result.half * E.transpose() * CE;
    }
    result.inside =
        -solve_symmetric(K.topLeftCorner<inner, inner>(), K.topRightCorner<inner, outer>());
    result.K =
        K.bottomRightCorner<outer, outer>() + K.bottomLeftCorner<outer, inner>() * result.inside;
    return result;
}

std::vector<PartElements> part_elements(const std::vector<PartSection>& parts) {
    return each_of(parts, [](const PartSection& part) { return part_elements(part); });
}

// The outer columns of an element about y in those of one about 0: e_x gains y c0.
Outer moved(double y) {
    Outer T = Outer::Identity();
    T(e0 - inner, c0 - inner) = y;
    return T;
}

// Calls visit(part, T, own) for each element: its `moved`, and its outer columns among those of the
// line, which are s at the elements' ends, then e0 c0 k0 given.
template <class Visit>
void for_each_element(const std::vector<PartSection>& parts,
                      const std::vector<PartElements>& elements, const Visit& visit) {
    Index nodes = 1;
    for (const PartElements& part : elements) {
        nodes += part.count;
    }
    Index node = 0;
    for (std::size_t p = 0; p < parts.size(); ++p) {
        for (int i = 0; i < elements[p].count; ++i, ++node) {
            const std::array<Index, outer> own{node,      node + 1,  nodes,
                                               nodes + 1, nodes + 2, nodes + 3};
            visit(p, moved(parts[p].y_from + elements[p].half * (2 * i + 1)), own);
        }
    }
}

// The twist problem's solution: GJ, and the line's columns.
struct Twist {
    double GJ = 0;
    VectorXd motion; // s at the elements' ends, e0 c0 k0, 1
};

Twist solve_twist(const std::vector<PartSection>& parts,
                  const std::vector<PartElements>& elements) {
    Index unknowns = global; // a node more than elements, and all of `global` but the given
    for (const PartElements& part : elements) {
        unknowns += part.count;
    }
    MatrixXd K = MatrixXd::Zero(unknowns + 1, unknowns + 1);
    for_each_element(parts, elements, [&](std::size_t p, const Outer& T, const auto& own) {
        const Outer KT = elements[p].K * T;
        K(own, own) += T.transpose() * KT;
    });
    const Eigen::LLT<MatrixXd> factor(K.topLeftCorner(unknowns, unknowns));
    if (factor.info() != Eigen::Success) {
        throw SolveError("cross-section", "the twist problem across the board is singular");
    }
    Twist twist;
    twist.motion.resize(unknowns + 1);
    twist.motion.head(unknowns) = -factor.solve(K.col(unknowns).head(unknowns));
    twist.motion(unknowns) = 1;
    twist.GJ = K.row(unknowns).dot(twist.motion);
    return twist;
}

} // namespace

Eigen::Matrix<double, 8, 8> stiffness8(const Section<double>& section) {
    Matrix8 C = Matrix8::Zero();
    C.block<3, 3>(0, 0) = section.A;
    C.block<3, 3>(0, 3) = section.B;
    C.block<3, 3>(3, 0) = section.B;
    C.block<3, 3>(3, 3) = section.D;
    C.block<2, 2>(6, 6) = section.S;
    return C;
}

double twist_stiffness(const std::vector<PartSection>& parts) {
    return solve_twist(parts, part_elements(parts)).GJ;
}

VectorXd twist_weights(const std::vector<PartSection>& parts) {
    const std::vector<PartElements> elements = part_elements(parts);
    const Twist twist = solve_twist(parts, elements);
    VectorXd weights = VectorXd::Zero(section_terms * static_cast<Index>(parts.size()));
    for_each_element(parts, elements, [&](std::size_t p, const Outer& T, const auto& own) {
        const PartElements& part = elements[p];
        Eigen::Matrix<double, columns, 1> motion;
        motion.tail<outer>() = T * twist.motion(own);
        motion.head<inner>() = part.inside * motion.tail<outer>();
        for (const ModeStrain& E : part.strains) {
            const Eigen::Matrix<double, 8, 1> strain = E * motion;
            weights.segment<section_terms>(section_terms * static_cast<Index>(p)) +=
                part.half * energy_weights(strain, strain);
        }
    });
    return weights;
}

} // namespace vrid
