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

TEST_CASE("where a notch lies on the axis, rises are those of the line from side to side, so that "
          "both horns of a tail count") {
    const Board board = read_board_text({R"(format = 1
name = "swallow"
[planform]
running_length_mm = 500
polygon_mm = [[300, -60], [300, 60], [-300, 90], [-380, 50], [-270, 0], [-380, -30], [-300, -90]]
[[layer]]
name = "sheet"
material = "abs"
thickness_mm = 3
)",
                                         "test.toml", ""},
                                        load_material_library());
    // the sides of the notch at -325 mm lie at y = 25 and -15 mm
    const auto terms = axis(board, -0.325);
    REQUIRE(terms.size() == 2);
    CHECK((terms[0].point - Eigen::Vector2d(-0.325, -0.015)).norm() < 1e-12);
    CHECK((terms[1].point - Eigen::Vector2d(-0.325, 0.025)).norm() < 1e-12);
    CHECK(terms[0].factor == Approx(25.0 / 40));
    CHECK(terms[1].factor == Approx(15.0 / 40));
    CHECK(axis(board, -0.26).size() == 1);
    const std::vector<ShapeNumber> numbers = shape_numbers(board, nullptr, {});
    for (const ShapeNumber& number : numbers) {
        if (number.name == "tail_height") {
            double left = 0, right = 0;
            for (const ShapeNumber::Term& term : number.terms) {
                if (term.point.x() < -0.37) {
                    (term.point.y() > 0 ? left : right) += term.factor;
                }
            }
            CHECK(left == Approx(30.0 / 80).epsilon(1e-4));
            CHECK(right == Approx(50.0 / 80).epsilon(1e-4));
        }
    }
}
