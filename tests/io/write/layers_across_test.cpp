#include "io/write/board_figures.hpp"

#include <catch2/catch.hpp>

#include "tests/io/write/solved_example.hpp"

using namespace vrid;

TEST_CASE("layers across the width are listed upwards with the parts where they lie") {
    Board board = tests::solved_example().board;
    Layer ribbon = board.layers.front();
    ribbon.name = "ribbon";
    ribbon.angle = 0.5;
    ribbon.zone.y = Range{0.03, 0.06};
    ribbon.mirror = true;
    Layer top = board.layers.front();
    top.name = "top";
    board.layers.push_back(ribbon);
    board.layers.push_back(top);
    const auto layers = layers_across(make_layup<double>(board), 0.1);
    REQUIRE(layers.size() == 4);
    CHECK(layers.front().name == "sheet");
    CHECK(text_of_width(layers.front()) == "all");
    CHECK(layers.back().name == "top");
    CHECK(text_of_width(layers[1]) != text_of_width(layers[2]));
    for (const auto& layer : {layers[1], layers[2]}) {
        CHECK(layer.name.starts_with("ribbon"));
        const bool left = layer.y.front()[0] > 0;
        CHECK(layer.angle == Approx(left ? 0.5 : -0.5));
        CHECK(text_of_width(layer) == (left ? "30 to 60" : "-60 to -30"));
    }
}

TEST_CASE("parts that lie alike on both sides are written by |y|") {
    const auto shown = [](std::vector<Range> y) {
        return text_of_width({"layer", "steel", 0, 1e-3, std::move(y), false});
    };
    CHECK(shown({{-0.1231, 0.1231}}) == "|y| < 123.1");
    CHECK(shown({{-0.075, -0.045}, {0.045, 0.075}}) == "|y| 45 to 75");
    CHECK(shown({{-0.1, -0.09}, {-0.02, 0.02}, {0.09, 0.1}}) == "|y| < 20, |y| 90 to 100");
    CHECK(shown({{-0.02, 0.03}}) == "-20 to 30");
}
