// What holds for every board, on random ones. No tolerance here is one of discretisation: both
// sides of each statement are equal before any mesh, so rounding alone parts them. A thin plate
// loses about 1e8 in the condition of K (residual limit 1e-6, mostly 1e-9), work and stiffness the
// square of that at most; sums over assembled forces lose 1e-12 of the terms summed.
#include <algorithm>
#include <cmath>
#include <random>

#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>

#include "../mirror_image.hpp"
#include "../plate_problem.hpp"
#include "../random_board.hpp"
#include "solver/cases/cases.hpp"
#include "solver/cases/foot_strip.hpp"
#include "solver/laminate/layup.hpp"
#include "solver/mesh_request.hpp"
#include "solver/system/eigenvalues.hpp"
#include "tests/solver/section_measures.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

constexpr int low_degree = 2;
constexpr double quad_size = 0.15;
constexpr double work_rounding = 1e-8;
constexpr double motion_rounding = 1e-6; // not stationary: as large as the residual may be
constexpr double sum_rounding = 1e-10;

bool has_feet_inside(const Board& board) {
    if (!board.stance) {
        return false;
    }
    const std::vector<double> lines = foot_lines(board);
    return std::is_sorted(lines.begin(), lines.end()) && lines.front() > tail_contact(board) &&
           lines.back() < nose_contact(board);
}

// The first `count` random boards that can have every case.
std::vector<Board> boards_with_feet(int count, unsigned seed) {
    const MaterialLibrary library = load_material_library();
    std::vector<Board> boards;
    while (static_cast<int>(boards.size()) < count) {
        Board board = random_board(seed++, library);
        if (has_feet_inside(board)) {
            boards.push_back(std::move(board));
        }
    }
    return boards;
}

std::vector<const BenchCase*> all_cases() {
    std::vector<const BenchCase*> cases;
    for (const BenchCase& bench : case_table()) {
        cases.push_back(&bench);
    }
    return cases;
}

Mesh mesh_of(const Board& board) {
    return mesh_planform(board, mesh_request(make_layup<double>(board), all_cases(), quad_size));
}

PlateModel model_of(const Board& board, const Mesh& mesh) {
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    return make_model(mesh, low_degree, sections);
}

std::vector<Loading> static_loadings(const Board& board, const PlateModel& model) {
    std::vector<Loading> loadings;
    for (const BenchCase& bench : case_table()) {
        if (bench.loading) {
            loadings.push_back(bench.loading(board, model));
        }
    }
    return loadings;
}

std::vector<CaseSolution> solve_all(const PlateModel& model, const std::vector<Loading>& loadings) {
    Seconds seconds;
    return solve_loadings(model, loadings, elimination_order(model.numbering, {}), 1, seconds);
}

// Motions without strain: three shifts and the turns about x, y and z through z = 0.
MatrixXd rigid_motions(const PlateModel& model) {
    MatrixXd R = MatrixXd::Zero(model.unknowns(), 6);
    for (int n = 0; n < model.numbering.nodes; ++n) {
        const double x = model.numbering.position(0, n);
        const double y = model.numbering.position(1, n);
        R.block<5, 6>(Index{5} * n, 0) << 1, 0, 0, 0, 0, -y, //
            0, 1, 0, 0, 0, x,                                //
            0, 0, 1, y, x, 0,                                //
            0, 0, 0, 0, -1, 0,                               //
            0, 0, 0, -1, 0, 0;
    }
    return R;
}

} // namespace

TEST_CASE("what supports and loads of any case supply is in balance: three forces, three moments") {
    for (const Board& board : boards_with_feet(4, 500)) {
        CAPTURE(board.name);
        const PlateModel model = model_of(board, mesh_of(board));
        const std::vector<Loading> loadings = static_loadings(board, model);
        const std::vector<CaseSolution> solutions = solve_all(model, loadings);
        const MatrixXd R = rigid_motions(model);
        for (std::size_t i = 0; i < loadings.size(); ++i) {
            // forces where something is held or pushed; elsewhere there is none but rounding
            VectorXd supplied = internal_forces(model, solutions[i].u);
            for (Index k = 0; k < supplied.size(); ++k) {
                if (loadings[i].fixed[static_cast<std::size_t>(k)] == 0) {
                    supplied(k) = loadings[i].force(k);
                }
            }
            const double size = supplied.cwiseAbs().sum(); // levers are below 1 m
            CAPTURE(i);
            for (Index c = 0; c < 6; ++c) {
                CHECK(std::abs(R.col(c).dot(supplied)) < motion_rounding * size);
            }
        }
    }
}

TEST_CASE("the torque of a twist case is the moment about the long axis that its turned line or "
          "foot takes, and the held end gives it back") {
    for (const Board& board : boards_with_feet(3, 520)) {
        CAPTURE(board.name);
        const PlateModel model = model_of(board, mesh_of(board));
        const std::vector<Loading> loadings = static_loadings(board, model);
        const std::vector<CaseSolution> solutions = solve_all(model, loadings);
        const VectorXd turn = rigid_motions(model).col(3);
        std::size_t i = 0;
        for (const BenchCase& bench : case_table()) {
            if (!bench.loading) {
                continue;
            }
            if (bench.unit == Unit::twist_stiffness) {
                const VectorXd forces = internal_forces(model, solutions[i].u);
                double driven = 0;
                double held = 0;
                for (Index k = 0; k < forces.size(); ++k) {
                    if (loadings[i].fixed[static_cast<std::size_t>(k)] != 0) {
                        (loadings[i].motion(k) != 0 ? driven : held) += turn(k) * forces(k);
                    }
                }
                CAPTURE(bench.info.name);
                CHECK(driven == Approx(solutions[i].stiffness).epsilon(motion_rounding));
                CHECK(held == Approx(-solutions[i].stiffness).epsilon(motion_rounding));
            }
            ++i;
        }
    }
}

TEST_CASE("compliance is symmetric and positive: unit forces and moments anywhere move each other "
          "alike (Betti, 1872)") {
    std::mt19937 random(11);
    for (const Board& board : boards_with_feet(3, 540)) {
        CAPTURE(board.name);
        const PlateModel model = model_of(board, mesh_of(board));
        Loading clamped = free_loading(model);
        clamp_foot(clamped, board, model, board.stance->rear());
        std::vector<int> at;
        while (at.size() < 12) {
            const int k = static_cast<int>(random() % static_cast<unsigned>(model.unknowns()));
            if (clamped.fixed[static_cast<std::size_t>(k)] == 0 &&
                std::find(at.begin(), at.end(), k) == at.end()) {
                at.push_back(k);
            }
        }
        std::vector<Loading> loadings(at.size(), clamped);
        for (std::size_t i = 0; i < at.size(); ++i) {
            loadings[i].force(at[i]) = 1;
        }
        const std::vector<CaseSolution> solutions = solve_all(model, loadings);
        const auto n = static_cast<Index>(at.size());
        MatrixXd C(n, n);
        for (Index i = 0; i < n; ++i) {
            for (Index j = 0; j < n; ++j) {
                C(j, i) = solutions[static_cast<std::size_t>(i)].u(at[static_cast<std::size_t>(j)]);
            }
        }
        const VectorXd scale = C.diagonal().cwiseSqrt();
        C = scale.cwiseInverse().asDiagonal() * C * scale.cwiseInverse().asDiagonal();
        CHECK((C - C.transpose()).cwiseAbs().maxCoeff() < motion_rounding);
        CHECK(smallest_over_largest((C + C.transpose()) / 2) > 0);
    }
}

TEST_CASE("prescribed motions do each other's work alike: the forces of one times the motion of "
          "the other (Betti)") {
    for (const Board& board : boards_with_feet(3, 560)) {
        CAPTURE(board.name);
        const PlateModel model = model_of(board, mesh_of(board));
        Loading one = free_loading(model);
        clamp_foot(one, board, model, board.stance->rear());
        prescribe_turn(one, model, line_nodes(model, nose_contact(board)), 1);
        Loading two = one;
        prescribe(two, line_nodes(model, nose_contact(board)), comp_w, 1);
        const std::vector<CaseSolution> solutions = solve_all(model, {one, two});
        const VectorXd force_one = internal_forces(model, solutions[0].u);
        const VectorXd force_two = internal_forces(model, solutions[1].u);
        const double there = two.motion.dot(force_one);
        const double back = one.motion.dot(force_two);
        const double size = std::sqrt(solutions[0].stiffness * solutions[1].stiffness);
        CHECK(std::abs(there - back) < motion_rounding * size);
    }
}

TEST_CASE("motions add: a force and a twist together move the board by the sum of each") {
    for (const Board& board : boards_with_feet(2, 580)) {
        CAPTURE(board.name);
        const PlateModel model = model_of(board, mesh_of(board));
        Loading one = free_loading(model);
        clamp_foot(one, board, model, board.stance->rear());
        Loading two = one;
        add_line_force(one, model, nose_contact(board), 1);
        two.force = pressure_forces(model, [](double x, double y) { return y + x * x; });
        Loading both = one;
        both.force = 3 * one.force - 2 * two.force;
        const std::vector<CaseSolution> s = solve_all(model, {one, two, both});
        const VectorXd sum = 3 * s[0].u - 2 * s[1].u;
        CHECK((s[2].u - sum).norm() < motion_rounding * sum.norm());
    }
}

TEST_CASE("energy is positive: no section at any integration point, and no motion but the rigid "
          "ones, costs nothing") {
    std::mt19937 random(5);
    for (const Board& board : boards_with_feet(4, 600)) {
        CAPTURE(board.name);
        const PlateModel model = model_of(board, mesh_of(board));
        double least = 1;
        for (std::size_t i = 0; i < model.stiffness.size(); ++i) {
            const PlateStiffness& c = model.stiffness[i];
            Section<double> s;
            s.A = c.A;
            s.B = c.B;
            s.D = c.D;
            const double thickness = std::sqrt(c.D(0, 0) / c.A(0, 0));
            least = std::min({least, smallest_over_largest(scaled_stiffness(s, thickness)),
                              smallest_over_largest(c.S)});
        }
        CHECK(least > 0);
        CHECK(model.inertia.minCoeff() > 0);
        const VectorXd I0_I2 = model.inertia.row(0).array() * model.inertia.row(2).array();
        const VectorXd I1_I1 = model.inertia.row(1).array().square();
        CHECK((I0_I2 - I1_I1).minCoeff() > 0); // Cauchy and Schwarz, for any stack of densities
        MatrixXd u(model.unknowns(), 4);
        for (Index k = 0; k < u.size(); ++k) {
            u.data()[k] = static_cast<double>(random()) / 2147483648.0 - 1;
        }
        CHECK((u.transpose() * internal_forces(model, u)).diagonal().minCoeff() > 0);
        const MatrixXd R = rigid_motions(model);
        const double rigid = internal_forces(model, R).cwiseAbs().maxCoeff();
        CHECK(rigid < sum_rounding * internal_forces(model, u).cwiseAbs().maxCoeff());
    }
}

TEST_CASE("a board in a mirror is as stiff and sounds the same; left for right keeps every case, "
          "nose for tail swaps theirs") {
    const MirrorIn axis = GENERATE(MirrorIn::x, MirrorIn::y);
    for (const Board& board : boards_with_feet(4, 620)) {
        CAPTURE(board.name, static_cast<int>(axis));
        const Mesh mesh = mesh_of(board);
        const Board image = mirror_image(board, axis);
        const PlateModel model = model_of(board, mesh);
        const PlateModel model_image = model_of(image, mirror_image(mesh, axis));
        const auto here = solve_all(model, static_loadings(board, model));
        const auto there = solve_all(model_image, static_loadings(image, model_image));
        REQUIRE(here.size() == 7);
        // centre-flex, nose-flex, tail-flex, nose-twist, tail-twist, stance-twist, full-twist
        constexpr std::array<std::size_t, 7> swapped{0, 2, 1, 4, 3, 5, 6};
        for (std::size_t i = 0; i < here.size(); ++i) {
            if (axis == MirrorIn::x && i == 5) {
                continue; // stance-twist: the rear foot holds u and v, the front one does not
            }
            const std::size_t j = axis == MirrorIn::x ? swapped[i] : i;
            CAPTURE(i);
            CHECK(there[j].stiffness == Approx(here[i].stiffness).epsilon(work_rounding));
        }
        const std::vector<char> nothing(static_cast<std::size_t>(model.unknowns()), 0);
        const VectorXd tone = lowest_modes(model, nothing, 3).omega2;
        const VectorXd tone_image = lowest_modes(model_image, nothing, 3).omega2;
        CHECK((tone - tone_image).cwiseQuotient(tone).cwiseAbs().maxCoeff() < 1e-6);
    }
}
