// What holds for every laminate, on random ones; equal before rounding, so the tolerances are that
// of double sums (1e-12) and, for plates, of work at a residual of 1e-6 (1e-8).
#include <algorithm>
#include <cmath>
#include <random>

#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>

#include "../../plate_problem.hpp"
#include "tests/solver/section_measures.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr double work_rounding = 1e-8;
constexpr double sum_rounding = 1e-12;

std::vector<Lamina<double>> random_stack(std::mt19937& random, int plies, double turn = 0) {
    std::uniform_real_distribution<double> share(0, 1);
    std::vector<Lamina<double>> stack;
    for (int k = 0; k < plies; ++k) {
        const double E1 = 1e9 * std::pow(200, share(random));
        const double E2 = E1 * std::pow(30, -share(random));
        const double G = 0.4 * E2;
        const double angle = turn + 7 * share(random) - 3.5;
        const double thickness = 1e-4 * std::pow(50, share(random));
        stack.push_back(
            lamina(PlyConstants<double>{E1, E2, 0.3, G, G * share(random) + 1e6, G, 1500, 0, 0},
                   angle, thickness));
    }
    return stack;
}

} // namespace

TEST_CASE("turning every ply of a random laminate turns A, B and D as tensors and leaves inertia; "
          "upside down, about mid-height, B changes sign alone") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> any(-3, 3);
    for (int run = 0; run < 200; ++run) {
        const double turn = any(random);
        std::mt19937 again = random;
        std::vector<Lamina<double>> stack = random_stack(random, 1 + run % 9);
        const Section<double> s = section(stack);
        const Section<double> t = section(random_stack(again, 1 + run % 9, turn));
        const Matrix3<double> T = strain_turn(turn); // strains in turned axes from those here
        const double h = s.thickness;
        const MatrixXd whole = scaled_stiffness(s, h);
        MatrixXd TT = MatrixXd::Zero(6, 6);
        TT.topLeftCorner<3, 3>() = TT.bottomRightCorner<3, 3>() = T;
        const double size = whole.cwiseAbs().maxCoeff();
        CHECK((scaled_stiffness(t, h) - TT.transpose() * whole * TT).cwiseAbs().maxCoeff() <
              sum_rounding * size);
        CHECK(t.I2 == s.I2);
        std::reverse(stack.begin(), stack.end());
        const Section<double> over = moved_to(section(stack), h / 2);
        const Section<double> middle = moved_to(s, h / 2);
        Section<double> expected = middle;
        expected.B = -middle.B;
        CHECK((scaled_stiffness(over, h) - scaled_stiffness(expected, h)).cwiseAbs().maxCoeff() <
              sum_rounding * size);
    }
}

TEST_CASE("a fibre's angle counts from +x towards +y: a ply at 30 degrees is stiffest there") {
    const PlyConstants<double> ply{140e9, 9e9, 0.3, 5e9, 5e9, 3e9, 1600, 0, 0};
    const double angle = std::atan(1 / std::sqrt(3.0));
    const Matrix3<double> Q30 = Qbar(ply, angle);
    const auto along = [&](double a) { // stress along a for strain along a
        const Vector3<double> strain(std::cos(a) * std::cos(a), std::sin(a) * std::sin(a),
                                     2 * std::sin(a) * std::cos(a));
        return strain.dot(Q30 * strain);
    };
    CHECK(along(angle) == Approx(Q(ply)(0, 0)).epsilon(1e-12));
    CHECK(along(angle) > along(angle + 0.01));
    CHECK(along(angle) > along(angle - 0.01));
}

TEST_CASE("plate, plies, supports and load turned together change nothing: random laminates, "
          "patches and turns") {
    std::mt19937 random(17);
    std::uniform_real_distribution<double> any(-3, 3);
    for (int run = 0; run < 5; ++run) {
        const Section<double> s = section(random_stack(random, 4));
        const double turn = any(random);
        const Eigen::Matrix2d R = rotation(turn);
        const Section<double> turned = turned_section(s, turn);
        std::array<Eigen::Vector2d, 4> corners{{{0, 0}, {0.3, 0.02}, {0.27, 0.16}, {-0.03, 0.12}}};
        const auto stiffness = [&](const Section<double>& laminate, const Eigen::Matrix2d& frame) {
            std::array<Eigen::Vector2d, 4> at;
            std::transform(corners.begin(), corners.end(), at.begin(),
                           [&](const Eigen::Vector2d& c) -> Eigen::Vector2d { return frame * c; });
            const PlateModel model = make_model(mesh_patch(at, 4, 3, 0.3), 3, laminate);
            Loading loading = free_loading(model);
            const Eigen::Vector2d out(at[3].y() - at[0].y(), at[0].x() - at[3].x());
            const auto on_side = outline_nodes(model, [&](double x, double y) {
                return std::abs(out.dot(Eigen::Vector2d(x, y) - at[0])) < 1e-9;
            });
            for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
                prescribe(loading, on_side, c);
            }
            loading.force = pressure_forces(model, [](double, double) { return 1.0; });
            return solve_one(model, loading).stiffness;
        };
        CHECK(stiffness(turned, R) ==
              Approx(stiffness(s, Eigen::Matrix2d::Identity())).epsilon(work_rounding));
    }
}

TEST_CASE("an outermost ply on top adds stiffness in every direction: the difference of A B D has "
          "no negative eigenvalue") {
    std::mt19937 random(23);
    for (int run = 0; run < 200; ++run) {
        std::vector<Lamina<double>> stack = random_stack(random, 2 + run % 8);
        const Section<double> with = section(stack);
        stack.pop_back();
        const Section<double> without = section(stack);
        const double h = with.thickness;
        CHECK(smallest_over_largest(scaled_stiffness(with, h) - scaled_stiffness(without, h)) >
              -sum_rounding);
    }
}
