// The four ways to give an outline; drawn ones: read_drawn_test.
#include <catch2/catch.hpp>

#include "tests/io/construction_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Planform planform_of(const std::string& keys) {
    std::string text = construction_text(plain_strips, "");
    const std::string rectangle = "rectangle_mm = [400, 120]\n";
    return read_text_board(text.replace(text.find(rectangle), rectangle.size(), keys)).planform;
}

std::string refusal(const std::string& keys) {
    return complaint_of([&] { (void)planform_of(keys); });
}

const std::string by_widths = "running_length_mm = 1135\nwaist_width_mm = 250\n"
                              "nose_width_mm = 291\ntail_width_mm = 286\n"
                              "nose_length_mm = 220\ntail_length_mm = 215\n";

} // namespace

TEST_CASE("an outline by widths and lengths keeps each in its place, fullness 0.55 unless told") {
    const Planform planform = planform_of(by_widths + "waist_x_mm = -18.5\nnose_fullness = 0.6\n");
    const PlanformShape& shape = *planform.shape;
    CHECK(shape.running_length == 1.135);
    CHECK(shape.waist_width == 0.25);
    CHECK(shape.nose_width == 0.291);
    CHECK(shape.tail_width == 0.286);
    CHECK(shape.waist_x == -0.0185);
    CHECK(shape.nose_length == 0.22);
    CHECK(shape.tail_length == 0.215);
    CHECK(shape.nose_fullness == 0.6);
    CHECK(shape.tail_fullness == 0.55);
    CHECK(x_extent(planform)[0] == Approx(-0.5675 - 0.215));
    CHECK(x_extent(planform)[1] == Approx(0.5675 + 0.22));
    CHECK(width_at(planform, 0.5675 - 1e-9) == Approx(0.291));
    CHECK(width_at(planform, -0.5675 + 1e-9) == Approx(0.286));
    CHECK(width_at(planform, -0.0185) == Approx(0.25));
    CHECK(planform_of(by_widths).shape->waist_x == 0);
}

TEST_CASE("a rectangle is length by width, its contact stations at its ends unless told") {
    const Planform planform = planform_of("rectangle_mm = [400, 120]\n");
    CHECK(x_extent(planform) == std::array<double, 2>{-0.2, 0.2});
    CHECK(width_at(planform, 0) == Approx(0.12));
    CHECK(planform.running_length == 0.4);
    CHECK_FALSE(planform.shape);
    CHECK(planform_of("rectangle_mm = [400, 120]\nrunning_length_mm = 300\n").running_length ==
          0.3);
}

TEST_CASE("a polygon has its corners, edges their own contact stations by side") {
    const Planform planform =
        planform_of("polygon_mm = [[-200, -60], [200, -50], [200, 50], [-200, 60]]\n"
                    "running_length_mm = 360\ncontact_left_mm = [-170, 171]\n"
                    "contact_right_mm = [-160, 161]\n");
    CHECK(planform.running_length == 0.36);
    CHECK(width_at(planform, -0.1) == Approx(0.115));
    CHECK(*planform.edge_contact[0] == std::array<double, 2>{-0.17, 0.171});
    CHECK(*planform.edge_contact[1] == std::array<double, 2>{-0.16, 0.161});
    CHECK_THAT(refusal("polygon_mm = [[0, 0], [100, 0]]\nrunning_length_mm = 300\n"),
               Contains("planform.polygon_mm: found an array of 2; accepted: 3 to 1000 corners"));
}

TEST_CASE("an outline is given in one way, and its waist lies between the contact stations") {
    CHECK_THAT(refusal("rectangle_mm = [400, 120]\nwaist_width_mm = 100\n"),
               Contains("planform.waist_width_mm: not accepted beside rectangle_mm"));
    CHECK_THAT(refusal("rectangle_mm = [400, 120]\npolygon_mm = [[0, 0], [9, 0], [0, 9]]\n"),
               Contains("planform.polygon_mm: not accepted beside rectangle_mm"));
    CHECK_THAT(refusal("rectangle_mm = [400, 120]\nhalf = true\n"),
               Contains("planform.half: accepted only beside outline_csv"));
    CHECK_THAT(refusal("rectangle_mm = [400, 120]\noutline_tolerance_mm = 1\n"),
               Contains("outline_tolerance_mm: accepted only beside outline_csv"));
    CHECK(refusal("rectangle_mm = [400, 120]\nhalf = false\n").empty());
    CHECK_THAT(refusal(by_widths + "waist_x_mm = 568\n"),
               Contains("planform.waist_x_mm: found 568; accepted: a station between the contact "
                        "stations"));
}
