// The board out of a mould that exists, and places of that mould's stations.
#include "solver/design/mould_numbers.hpp"

#include <catch2/catch.hpp>

#include "io/design/number_names.hpp"
#include "io/write/number_name.hpp"
#include "solver/cooling/mould.hpp"
#include "solver/design/shape_change.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;
using Kind = NumberId::Kind;

namespace {

Board with_mould() {
    Board board = example("three-mm-too-much");
    board.cure->mould = Profile{Interpolation::smooth,
                                {-0.76, -0.55, -0.05, 0.5, 0.79},
                                {0.041, 1e-3, 9e-3, -0.5e-3, 0.047}};
    return board;
}

NumberId shape(const std::string& bench, const std::string& number) {
    return {Kind::shape, bench, 0, 0, {}, number};
}

double slope(const BoardNumbers& found, std::size_t number, const std::string& path) {
    for (std::size_t i = 0; i < found.values.size(); ++i) {
        if (path_of(found.values[i]) == path) {
            return found.numbers[number].slope(static_cast<Eigen::Index>(i));
        }
    }
    FAIL("no " << path);
    return 0;
}

} // namespace

TEST_CASE(
    "the board out of a mould is the mould and what the press adds; its derivatives are those "
    "of full solves, by a station of the mould, of the core, by the running length") {
    const Board board = with_mould();
    std::vector<NumberId> requests;
    for (const char* const name : pressed_names) {
        requests.push_back(shape("pressed", name));
        requests.push_back(shape("release", name));
    }
    NumbersOptions options;
    options.degree = 2;
    const std::vector<std::string> lines{"cure.mould_mm[1]", "cure.mould_mm[2]", "cure.mould_mm[4]",
                                         "planform.running_length_mm"};
    options.lines = lines_among(ids_of(board, lines));
    const BoardNumbers found = board_numbers(board, requests, options);
    // by hand: heights of the mould at x = 0 and at the contact stations
    const std::vector<double> slopes = smooth_slopes(*board.cure->mould);
    const double contact = board.planform.running_length / 2;
    const auto z = [&](double x) { return value_at(*board.cure->mould, slopes, x); };
    const double camber = z(0) - (z(contact) + z(-contact)) / 2;
    CHECK(found.numbers[0].quantity.value ==
          Approx(camber + found.numbers[1].quantity.value).epsilon(1e-12));
    CHECK(found.numbers[0].quantity.error == found.numbers[1].quantity.error);

    NumbersOptions plain = options;
    plain.slopes = false;
    plain.lines.clear();
    const auto values = [&](const LineValue& line, double by) {
        const Board there = with_line_value(board, line, line_value(board, line.id) + by);
        Eigen::VectorXd all(static_cast<Eigen::Index>(requests.size()));
        const BoardNumbers numbers = board_numbers(there, requests, plain);
        for (std::size_t k = 0; k < requests.size(); ++k) {
            all(static_cast<Eigen::Index>(k)) = numbers.numbers[k].quantity.value;
        }
        return all;
    };
    for (const LineValue& line : options.lines) {
        const bool of_mould = line.id.kind->property == DesignProperty::mould_station;
        const double h = of_mould ? 1e-5 : 2e-3;
        const Eigen::VectorXd two = (values(line, h) - values(line, -h)) / (2 * h);
        double largest = 0;
        for (std::size_t k = 0; k < requests.size(); ++k) {
            const double own = slope(found, k, path_of(line.id));
            INFO(path_of(line.id) << " " << number_name(requests[k]) << ": " << own);
            // meshes of their own beside the running length
            const double near = of_mould ? 1e-7 : 2e-4;
            CHECK(own == Approx(two(static_cast<Eigen::Index>(k))).epsilon(1e-5).margin(near));
            if (of_mould && requests[k].bench_case == "release") {
                CHECK(own == 0);
            }
            largest = std::max(largest, std::abs(own));
        }
        CHECK(largest > 1e-3);
    }
    CHECK(slope(found, 0, "core.thickness_scale") == slope(found, 1, "core.thickness_scale"));
}

TEST_CASE("stations of a mould keep their order, and only a mould has them") {
    const Board board = with_mould();
    const LineValue second{ids_of(board, {"cure.mould_mm[1]"}).front(), {}};
    CHECK_THROWS_WITH(with_line_value(board, second, -0.77), Catch::Contains("mould"));
    Board without = board;
    without.cure->mould.reset();
    CHECK_FALSE(find_design(without, "cure.mould_mm[1]"));
    CHECK_FALSE(find_number("pressed.camber", without).request);
    CHECK(find_number("pressed.camber", board).request == shape("pressed", "camber"));
}
