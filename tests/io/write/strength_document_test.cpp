#include "io/write/strength_document.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"

using namespace vrid;

namespace {

template <class Place> Place on_glass(double x) {
    Place place;
    place.x_mm = x;
    place.y_mm = 40;
    place.layer = "glass";
    place.ply_deg = 45;
    place.z_mm = 2.5;
    place.mode = "crack across";
    place.at_outline = true;
    return place;
}

StrengthFindings found_strength() {
    StrengthFindings found;
    found.caution = "Take care.";
    found.board = BoardEntry{"b", "h"};
    found.residual = "cold";
    FoundCaseStrength one{"nose-flex"};
    one.first = on_glass<FoundPlace>(20);
    one.first->load = {{120, 1.2, "N"}};
    one.first->travel = 14.5;
    one.first->travel_error = std::nan(""); // not known
    one.first->travel_unit = "mm";
    one.first->sign = -1;
    one.next = std::vector<FoundPlace>{};
    one.not_judged = std::vector<std::string>{"base"};
    one.lowest_load = std::vector<std::vector<double>>{{120, std::nan("")}};
    StressByName stress{{"1", {10, 60}}, {"2", {0, 1}}, {"12", {0, 9}}};
    stress["13"] = {1, 0.5, 0};
    stress["23"] = {0, 0, 0};
    one.through = std::vector<StressedPly>{
        {"glass", 1, 45, {2, 2.5}, stress, {{"e-glass", stress, Named<double>{{"Xt", 800}}}}}};
    found.strength = {one, {"tail-flex", "it has no tail"}};
    found.grid = StrengthGrid{{-50, 0, 50}, {-10, -10, -10}, {10, 10, 10}, 1};
    FoundEdgeStrength edge;
    edge.name = "edge 60 deg 800 N 5 N/mm3";
    edge.angle_deg = 60;
    edge.first = on_glass<FoundIndex>(318);
    edge.first->index = 3.514;
    edge.not_judged = std::vector<std::string>{"base", "top"};
    FoundEdgeFailure failure;
    failure.load = {{350, 4, "N"}};
    failure.place = edge.first;
    edge.to_failure.emplace().first = failure;
    found.edge = {edge};
    return found;
}

} // namespace

TEST_CASE("a strength is the same there and back, on the edge and through the thickness") {
    const StrengthFindings found = found_strength();
    const std::string text = json_text(written(found));
    const StrengthFindings back = read_strength_json(text, "strength.json");
    CHECK(json_text(written(back)) == text);
    REQUIRE(back.judged().size() == 1); // the other case was not run
    const FoundCaseStrength one = back.judged().front();
    CHECK(one.first->load.error == 1.2);
    CHECK(std::isnan(one.first->travel_error.value));
    CHECK(one.first->at_outline);
    CHECK(std::isnan((*one.lowest_load)[0][1]));
    CHECK((*one.through)[0].parts[0].strength("Xt") == 800);
    CHECK((*one.through)[0].parts[0].strength("S13") == 0);
    CHECK(back.strength[1].skipped == "it has no tail");
    CHECK(back.edge->front().to_failure->first->place->index == 3.514);
    CHECK_FALSE(back.edge->front().to_failure->breaks);
    CHECK(back.not_judged() == std::vector<std::string>{"base", "top"});
}

TEST_CASE("a strength whose numbers do not fit together is refused") {
    const auto refused = [](const StrengthFindings& found) {
        CHECK_THROWS_AS(read_strength_json(json_text(written(found)), "s"), InputError);
    };
    StrengthFindings found = found_strength();
    found.grid->left_mm.pop_back();
    refused(found);
    found = found_strength();
    found.strength[0].lowest_load->front().pop_back();
    refused(found);
    found = found_strength();
    found.strength[0].first->x_mm = std::nan("");
    refused(found);
    found = found_strength();
    found.strength[0].through->front().parts.clear();
    refused(found);
    found = found_strength();
    found.strength[0].through->front().z_mm = {2.5, 2};
    refused(found);
    found = found_strength();
    found.strength[0].through->front().parts[0].stress_MPa["13"].pop_back();
    refused(found);
}
