#include "io/write/sense_json.hpp"

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"

using namespace vrid;

TEST_CASE("what sense found is the same there and back, steps with their number") {
    SenseFindings found;
    found.program = "vrid";
    found.board = {"b", "h", std::vector<std::string>{"mass = 1"}, "b.toml", "2026-11-28"};
    found.warnings = {"look"};
    found.numbers = {{"mass", {4, 0, "kg"}, {}}, {"nose-twist", {9.5, 0.01, "N m/deg"}, {}}};
    StepChange kinked{"nose-twist", "layer.edge.from_mm"};
    kinked.value = -0.2;
    kinked.below = -0.1;
    kinked.above = -0.3;
    kinked.kink = true;
    kinked.unit = "N m/deg per mm";
    kinked.step = 1;
    kinked.step_unit = "mm";
    kinked.percent_per_step = -2.1;
    StepChange station{"nose-twist", "core.thickness_mm[1]", 457.5};
    station.value = 0.4;
    station.step = 0.1;
    found.numbers[1].steps = {kinked, station};
    FoundOutline outline;
    outline.drawn = {{0, -100}, {0, 100}};
    outline.at = {{0, 100}};
    outline.outward = {{0, 1}};
    outline.length = std::vector<double>{12.5};
    outline.gains = {{"nose-twist", {"N m/deg per mm2"}, {1e-5}}};
    outline.omitted = {{"mass", "needs no solve"}};
    found.outline = outline;

    const std::string text = json_text(json_of(found));
    const SenseFindings back = read_sense(text, "sense.json");
    CHECK(json_text(json_of(back)) == text);
    CHECK(back.numbers[0].steps.empty());
    REQUIRE(back.numbers[1].steps.size() == 2);
    CHECK(back.numbers[1].steps[0].above == -0.3);
    CHECK(back.numbers[1].steps[1].x == 457.5);
    CHECK_FALSE(back.numbers[1].steps[1].percent_per_step);
    CHECK(back.board.file_words() == "b.toml, last changed on 2026-11-28");
    CHECK(back.outline->omitted == outline.omitted);
    CHECK(back.outline->widening(back.numbers[0]).empty());
    found.outline->gains[0].gain = {}; // none of the one vertex
    CHECK_THROWS_AS(read_sense(json_text(json_of(found)), "sense.json"), InputError);
}
