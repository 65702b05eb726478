// Numbers of the board bent far: against the linear ones at a small travel, and their derivatives
// against whole bends of changed boards.
#include "solver/bend.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/write/number_name.hpp"
#include "mesh/board/error.hpp"
#include "solver/response/error_bar.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;
using Kind = NumberId::Kind;

namespace {

StudyOptions quick(double travel) {
    StudyOptions options;
    options.degree = 2;
    options.bend = {travel};
    return options;
}

double stiffness_of(const StudyResult& study, const std::string& name) {
    for (const CaseResult& one : study.cases) {
        if (one.name == name) {
            return one.numbers.front().quantity.value;
        }
    }
    return std::nan("");
}

double number_of(const BentCase& bent, const std::string& name) {
    for (const NamedQuantity& one : bent.numbers) {
        if (one.name == name) {
            return one.quantity.value;
        }
    }
    return std::nan("");
}

NumberId bent(const std::string& bench, const std::string& number, double travel) {
    return {Kind::bent, bench, 0, 0, {}, {}, number, travel};
}

// Bent numbers of a board with one value changed.
Eigen::VectorXd numbers_at(const Board& board, const DesignValue& value, double by,
                           const std::vector<NumberId>& requests, const NumbersOptions& options) {
    Eigen::VectorXd moved(1);
    moved(0) = value.value + by;
    const BoardNumbers found =
        board_numbers(with_values(board, {{value.id}, moved}, library()), requests, options);
    Eigen::VectorXd all(static_cast<Eigen::Index>(found.numbers.size()));
    for (Eigen::Index k = 0; k < all.size(); ++k) {
        all(k) = found.numbers[static_cast<std::size_t>(k)].quantity.value;
    }
    return all;
}

} // namespace

TEST_CASE("a twist of the board bent down in its middle needs no other case asked for") {
    for (const char* twist : {"stance-twist", "full-twist"}) {
        StudyOptions options = quick(0.02);
        options.flat = true; // no station of a rest shape lies in the middle
        options.cases = {twist};
        const StudyResult alone = run_study(example("nh-157-querwind"), options);
        options.cases = {"centre-flex", "stance-twist", "full-twist"};
        const StudyResult all = run_study(example("nh-157-querwind"), options);
        REQUIRE(alone.bent.size() == 1);
        for (const BentCase& one : all.bent) {
            if (one.name == twist) {
                CHECK(number_of(alone.bent.front(), "stiffness") ==
                      Approx(number_of(one, "stiffness")).epsilon(1e-3));
            }
        }
    }
}

TEST_CASE("bent by a hundredth of a millimetre a board answers as in small motion") {
    for (const bool flat : {false, true}) {
        StudyOptions options = quick(1e-5);
        options.flat = flat;
        const StudyResult study = run_study(example("nh-157-querwind"), options);
        CHECK(study.bent.size() == 7);
        for (const BentCase& one : study.bent) {
            INFO(one.name << (flat ? ", flat" : ""));
            const double linear = stiffness_of(study, one.name);
            CHECK(number_of(one, "stiffness") == Approx(linear).epsilon(1e-3));
            if (one.numbers.size() > 1) {
                CHECK(number_of(one, "tangent") == Approx(linear).epsilon(1e-3));
                CHECK(number_of(one, "force") == Approx(linear * 1e-5).epsilon(1e-3));
            }
        }
    }
}

TEST_CASE("the tangent of a bent board is the slope of its force over travel") {
    StudyOptions options = quick(0.04);
    options.bend = {0.0398, 0.04, 0.0402};
    options.cases = {"nose-flex"};
    const StudyResult study = run_study(example("nh-157-querwind"), options);
    REQUIRE(study.bent.size() == 3);
    const double slope =
        (number_of(study.bent[2], "force") - number_of(study.bent[0], "force")) / 4e-4;
    CHECK(number_of(study.bent[1], "tangent") == Approx(slope).epsilon(1e-5));
}

// Chance can keep the mean of two edges still from one degree to the next: a bar of its change
// alone was six times too small on a board with a soft core (benchmarks/independent).
TEST_CASE("the bar of flattening has the change of each edge and of the middle") {
    StudyOptions options = quick(0.04);
    options.cases = {"nose-flex"};
    const Board board = example("nh-157-biax");
    const StudyResult study = run_study(board, options);
    REQUIRE(study.bent.size() == 1);
    const BentCase& one = study.bent.front();
    // w at the right edge, the left edge and on the axis
    const auto heights = [&](int degree, const Eigen::VectorXd& motion) {
        const Numbering nodes = number_nodes(study.mesh, degree);
        const double x = board.planform.running_length / 2;
        std::vector<std::pair<double, double>> line; // y, w
        for (int node = 0; node < nodes.nodes; ++node) {
            if (std::abs(nodes.position(0, node) - x) < 1e-9) {
                line.emplace_back(nodes.position(1, node), motion(5 * node + 2));
            }
        }
        std::sort(line.begin(), line.end());
        const auto axis = std::find_if(line.begin(), line.end(),
                                       [](const auto& at) { return std::abs(at.first) < 1e-9; });
        REQUIRE(axis != line.end());
        return Eigen::Vector3d(line.front().second, line.back().second, axis->second);
    };
    const int degree = study.numbering.degree;
    const Eigen::Vector3d fine = heights(degree, one.motion);
    const Eigen::Vector3d change = fine - heights(degree - 1, one.coarse_motion);
    CHECK((fine(0) + fine(1)) / 2 - fine(2) == Approx(number_of(one, "flattening")).epsilon(1e-9));
    const double parts = (std::abs(change(0)) + std::abs(change(1))) / 2 + std::abs(change(2));
    const auto number = std::find_if(one.numbers.begin(), one.numbers.end(),
                                     [](const auto& n) { return n.name == "flattening"; });
    CHECK(number->quantity.error == Approx(bar_factor(degree) * parts).epsilon(1e-9));
}

TEST_CASE("derivatives of a bent board's numbers are those of whole bends, to 1e-5") {
    const Board board = shaken(example("nh-157-querwind"), 5);
    std::vector<NumberId> requests;
    for (const char* const number : {"force", "stiffness", "tangent", "flattening"}) {
        requests.push_back(bent("nose-flex", number, 0.04));
        requests.push_back(bent("centre-flex", number, 0.04));
    }
    for (const char* const twist : {"stance-twist", "full-twist", "nose-twist"}) {
        requests.push_back(bent(twist, "stiffness", 0.04));
    }
    NumbersOptions options;
    options.degree = 1; // derivatives are those of the discrete board: any degree will do
    options.max_size = 0.2;
    const BoardNumbers exact = board_numbers(board, requests, options);
    options.prepared = exact.prepared;
    options.slopes = false;
    const std::vector<DesignValue> values = design_board(board).values;
    for (const char* const path :
         {"core.thickness_mm[4]", "layer.upper glass.angle_deg", "material.e-glass.E_GPa"}) {
        const auto at = std::find_if(values.begin(), values.end(),
                                     [&](const DesignValue& v) { return path_of(v.id) == path; });
        REQUIRE(at != values.end());
        const double size = at->value == 0 ? 1 : std::abs(at->value);
        const double h = 2e-3 * size;
        const auto step = [&](double by) -> Eigen::VectorXd {
            return (numbers_at(board, *at, by, requests, options) -
                    numbers_at(board, *at, -by, requests, options)) /
                   (2 * by);
        };
        const Eigen::VectorXd found = (4 * step(h) - step(2 * h)) / 3;
        for (std::size_t k = 0; k < requests.size(); ++k) {
            const double slope = exact.numbers[k].slope(at - values.begin());
            const double floor = 0.1 * std::abs(exact.numbers[k].quantity.value) / size;
            INFO(path << " " << number_name(requests[k]));
            CHECK(std::abs(slope - found(static_cast<Eigen::Index>(k))) <=
                  1e-5 * std::max(std::abs(slope), floor));
        }
    }
}

TEST_CASE("a board that cannot be bent as far is an error with the travel reached") {
    StudyOptions options = quick(0.9);
    options.cases = {"centre-flex"};
    CHECK_THROWS_WITH(run_study(example("nh-157-querwind"), options),
                      Catch::Contains("centre-flex") && Catch::Contains("beyond a travel of"));
}
