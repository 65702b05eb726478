// The planform read back: lengths and widths at one scale, nose to the right, left (+y) up.
#include <catch2/catch.hpp>

#include "io/report/report.hpp"
#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Drawing wedge() {
    Drawing drawing;
    drawing.outline = {{-500, -100}, {432, -120}, {432, 130}, {-500, 100}};
    drawing.contact = {-450, 400};
    drawing.feet = {{-300, -50, -200, 60}};
    DrawnZone area;
    area.layer = "ribbon";
    area.kind = "area";
    area.points = std::vector<std::pair<double, double>>{{0, 0}, {100, 0}, {100, 50}};
    DrawnZone band;
    band.layer = "rubber";
    band.kind = "band";
    band.from = 0;
    band.to = 25;
    band.x = {-400, 300};
    drawing.zones = {area, band};
    DrawnSection section;
    section.label = "middle";
    section.x = 10;
    section.parts = {
        {{-100, 100}, {{"ribbon", "carbon", 0, {0, 1}}, {"rubber", "rubber", 0, {1, 2}}}}};
    drawing.sections = {section};
    return drawing;
}

} // namespace

TEST_CASE("a board is drawn at one scale along and across: 1 px a mm for 932 mm of length") {
    const std::string picture = planform_picture(wedge(), "p");
    const auto outline = drawn(picture, "polygon", "outline").at(0).points();
    REQUIRE(outline.size() == 4);
    CHECK(outline[0].first == 54); // the tail at the left end of the stations
    CHECK(outline[1].first == 986);
    CHECK(outline[1].first - outline[0].first == Approx(932));
    const double axis = drawn(picture, "line", "axis").at(0).number("y1");
    CHECK(axis - outline[2].second == Approx(130)); // +y is up
    CHECK(outline[1].second - axis == Approx(120));
    const auto foot = drawn(picture, "rect", "foot").at(0);
    CHECK(foot.number("x") == Approx(54 + 200));
    CHECK(foot.number("width") == Approx(100));
    CHECK(axis - foot.number("y") == Approx(60));
    CHECK(foot.number("height") == Approx(110));
    const auto contact = drawn(picture, "line", "contact");
    CHECK(contact.at(0).number("x1") == Approx(54 + 50));
    CHECK(contact.at(1).number("x1") == Approx(54 + 900));
    CHECK(drawn_text(picture, "contact -450.0").number("x") == Approx(104));
    CHECK(drawn(picture, "line", "cut").at(0).number("x1") == Approx(54 + 510));
    CHECK(drawn_text(picture, "nose").number("x") > drawn_text(picture, "tail").number("x"));
    CHECK_THAT(picture, Contains("Length 932.0 mm."));
}

TEST_CASE("a zone lies where its points are, a band as wide as its distance from the outline") {
    const std::string picture = planform_picture(wedge(), "p");
    const double axis = drawn(picture, "line", "axis").at(0).number("y1");
    const auto area = drawn(picture, "polygon", "zone L0").at(0).points();
    REQUIRE(area.size() == 3);
    CHECK(area[1].first == Approx(54 + 600));
    CHECK(axis - area[2].second == Approx(50));
    const auto band = drawn(picture, "polygon", "band L1").at(0);
    CHECK(band.number("stroke-width") == 50); // half of it lies outside
    const auto clip = drawn(picture, "rect");
    CHECK(clip.at(0).number("x") == Approx(54 + 100));
    CHECK(clip.at(0).number("width") == Approx(700));
    CHECK_THAT(picture, Contains("rubber: 0.00 to 25.0 mm from the outline"));
    CHECK_THAT(picture, Contains("<span class=\"key L0\"></span>ribbon</li>") &&
                            Contains("<span class=\"key L1\"></span>rubber</li>"));
    CHECK(planform_picture({}, "p").empty());
}
