// What a report says of how its numbers were made, against lines written by hand.
#include <catch2/catch.hpp>

#include "io/batch/folder_results.hpp"

using namespace vrid;

namespace {

BoardEntry plank() {
    return {"plank", "0123abcd", {}, std::string("plank.toml"), std::string("2031-05-01")};
}

} // namespace

TEST_CASE("facts of a solve are file, program, hash, mesh, residual, all phases' time, what was "
          "skipped, warnings") {
    FolderResults found;
    FoundResult& result = found.result.emplace();
    result.program = "vrid 1.0.0";
    result.board = plank();
    result.mesh = {560, 3, 25790};
    result.solver.residual = 1.5e-12;
    result.seconds = {{"mesh", 0.25}, {"solve", 1.5}};
    result.skipped = {{"stance-twist", "no [stance]"}};
    result.warnings = {"odd"};
    const Facts facts{{"board file", "plank.toml, last changed on 2031-05-01"},
                      {"program", "vrid 1.0.0"},
                      {"content hash", "0123abcd"},
                      {"mesh", "560 elements of degree 3, 25790 unknowns"},
                      {"residual", "1.5e-12"},
                      {"seconds", "1.8"},
                      {"skipped", "stance-twist: no [stance]"},
                      {"warning", "odd"}};
    CHECK(facts_of(found) == facts);
    found.strength.emplace().warnings.value = {"odd"}; // told once
    CHECK(facts_of(found) == facts);
    found.strength->warnings.value.emplace_back("weak");
    CHECK(facts_of(found).size() == facts.size() + 1);
    CHECK(facts_of(found).back().second == "weak");
}

TEST_CASE("facts of an edge have its own mesh and warnings; of a strength alone its warnings") {
    FolderResults on_edge;
    FoundEdge& edge = on_edge.edge.emplace();
    edge.program = "vrid 1.0.0";
    edge.board = {"plank", "0123abcd"};
    edge.mesh = MeshEntry{120, 2, 4321};
    edge.warnings = {"steep"};
    CHECK(facts_of(on_edge) ==
          Facts{{"program", "vrid 1.0.0"},
                {"content hash", "0123abcd"},
                {"mesh on the edge", "120 elements of degree 2, 4321 unknowns"},
                {"warning", "steep"}});
    edge.mesh.reset();
    CHECK(facts_of(on_edge).size() == 3);
    FolderResults strong;
    strong.strength.emplace().board = BoardEntry{"plank", "4567"};
    strong.strength->program = "vrid 1.0.0";
    strong.strength->warnings.value = {"weak"};
    CHECK(facts_of(strong) ==
          Facts{{"program", "vrid 1.0.0"}, {"content hash", "4567"}, {"warning", "weak"}});
}
