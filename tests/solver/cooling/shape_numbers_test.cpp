#include "solver/cooling/shape_numbers.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"

namespace {

using namespace vrid;

// Tips on different sides of the axis, the nose's contact station wholly to its left.
const std::string skew = R"(format = 1
name = "skew"
[planform]
running_length_mm = 500
polygon_mm = [[-310, -60], [250, 15], [330, 70], [240, 130], [-240, 90]]
[[layer]]
name = "sheet"
material = "abs"
thickness_mm = 3
)";

} // namespace

TEST_CASE("No rigid motion counts in a number of the shape out of the press, tips off the axis or "
          "not") {
    const Board board = read_board_text({skew, "test.toml", ""}, load_material_library());
    std::vector<ShapeNumber> numbers = shape_numbers(board, nullptr, {100});
    numbers.push_back(free_rise(board, nullptr, {0.1, 0.05}));
    CHECK(numbers.size() >= 9);
    for (const ShapeNumber& number : numbers) {
        INFO(number.name);
        Eigen::Vector3d rigid = Eigen::Vector3d::Zero(); // a lift, a pitch, a roll
        double size = 0;
        for (const ShapeNumber::Term& term : number.terms) {
            rigid += term.factor * Eigen::Vector3d(1, term.point.x(), term.point.y());
            size += std::abs(term.factor);
        }
        CHECK(rigid.norm() < 1e-12 * size);
    }
}
