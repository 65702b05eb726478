// The board out of the press as it is drawn, against lines written by hand.
#include <catch2/catch.hpp>

#include "io/batch/folder_results.hpp"

using namespace vrid;

namespace {

using Values = std::vector<double>;

FoundCase cooled_line(double first, double second, double across) {
    FoundCase one;
    one.axis = std::vector<AxisPoint>{{-500, first}, {500, second}};
    one.across =
        std::vector<FoundAcross>{{0, {{-100, across}, {100, -across}}}, {250, {{-90, 2 * across}}}};
    one.by_layer = std::vector<LayerShare>{{"base", first, 0, 0}};
    return one;
}

FoundResult pressed() {
    FoundResult result;
    result.mould = std::vector<FoundMould>{{-500, 10, 1, 9}, {500, 12, 2, 10}};
    result.cases["release"] = cooled_line(1, 2, 0.25);
    result.cases["cold"] = cooled_line(3, 5, 0.75);
    return result;
}

} // namespace

TEST_CASE("the mould is drawn, and above it the board released and cold") {
    const CooledDrawing drawing = cooled_drawing(pressed());
    REQUIRE(drawing.any());
    REQUIRE(drawing.profile.size() == 3);
    CHECK(drawing.profile[0].name == "mould");
    CHECK(drawing.profile[0].x == Values{-500, 500});
    CHECK(drawing.profile[0].y == Values{9, 10});
    CHECK(drawing.profile[1].name == "released");
    CHECK(drawing.profile[1].y == Values{10, 12}); // as wanted
    CHECK(drawing.profile[2].name == "cold");
    CHECK(drawing.profile[2].y == Values{12, 15});
    REQUIRE(drawing.across.size() == 2);
    CHECK(drawing.across[1].x == 250);
    REQUIRE(drawing.across[0].curves.size() == 2);
    CHECK(drawing.across[0].curves[1].name == "cold");
    CHECK(drawing.across[0].curves[1].x == Values{-100, 100});
    CHECK(drawing.across[0].curves[1].y == Values{0.75, -0.75});
    REQUIRE(drawing.by_layer.size() == 1);
    CHECK(drawing.by_layer[0].camber == 1); // of the released one
}

TEST_CASE("of a mould that exists it is drawn what comes out of it, beside what was wanted") {
    FoundResult result = pressed();
    result.mould.front().existing_mould_mm = Finite{4};
    result.mould.back().existing_mould_mm = Finite{5};
    const CooledDrawing drawing = cooled_drawing(result);
    REQUIRE(drawing.profile.size() == 4);
    CHECK(drawing.profile[0].name == "existing mould");
    CHECK(drawing.profile[0].y == Values{4, 5});
    CHECK(drawing.profile[1].y == Values{5, 7});
    CHECK(drawing.profile[3].name == "wanted");
    CHECK(drawing.profile[3].y == Values{10, 12});
    CHECK_FALSE(cooled_drawing({}).any());
}
