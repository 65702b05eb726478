#include "io/write/strength_doubts.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE(
    "the doubts of a strength are its warnings, what is over the limit before any load, steep "
    "cases in one, and conditions on the edge") {
    StrengthFindings found;
    CHECK(strength_doubts(found).empty());
    found.warnings.value = {"weak"};
    for (const auto& [name, slope] : {std::pair("a", 0.15), {"b", 0.1502}, {"c", 1.1}}) {
        FoundCaseStrength one{name};
        one.first.emplace();
        one.slope = slope;
        one.before_load = slope > 1;
        found.strength.push_back(one);
    }
    found.strength.push_back(FoundCaseStrength{"skipped"});
    const std::vector<std::string> cases{
        "weak", "c: over the limit before any load",
        "linear theory is stretched far where the steepest slope at the first failure is above "
        "0.15: b 0.1502, c 1.1"};
    CHECK(strength_doubts(found) == cases);
    found.edge.emplace(2);
    found.edge->at(0).name = "edge 80 deg";
    found.edge->at(0).no_equilibrium.assign("it falls");
    found.edge->at(1).name = "edge 60 deg";
    found.edge->at(1).slope = 0.2;
    std::vector<std::string> all = cases;
    all.emplace_back("edge 80 deg: no equilibrium, it falls");
    all.emplace_back("edge 60 deg: the steepest slope is 0.20, above 0.15: turns that large are "
                     "not modelled, but with --bent");
    CHECK(strength_doubts(found) == all);
    found.edge_motion = "large";
    all.pop_back();
    CHECK(strength_doubts(found) == all);
}
