#include "io/design/design_values.hpp"

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Board changed(const std::vector<Change>& changes) {
    Board board = read_text_board(demo_board_text());
    apply_changes(board, changes, shipped_library());
    return board;
}

std::string refused(const std::vector<Change>& changes) {
    return complaint_of([&] { (void)changed(changes); });
}

const Layer& layer(const Board& board, const std::string& name) {
    return *std::find_if(board.layers.begin(), board.layers.end(),
                         [&](const Layer& one) { return one.name == name; });
}

} // namespace

TEST_CASE("values are set in the file's units and scales multiply what the values left") {
    const std::vector<Change> changes{{"core.thickness_scale", 1.1, ""},
                                      {"core.thickness_mm[2]", 8.0, ""}};
    for (const auto& order : {changes, {changes[1], changes[0]}}) {
        const Board board = changed(order);
        CHECK(board.core->thickness.value[2] == Approx(8.8e-3));
        CHECK(board.core->thickness.value[0] == Approx(1.1 * 1.8e-3));
    }
}

TEST_CASE("a scaled layer gets a fabric of its own and the other layer keeps its") {
    const Board board = changed({{"layer.lower glass.areal_weight_scale", 1.5, ""}});
    const Fabric& own = board.fabrics.at(layer(board, "lower glass").fabric);
    const Fabric& other = board.fabrics.at(layer(board, "upper glass").fabric);
    CHECK(own.plies[0].areal_weight == Approx(1.5 * 0.370));
    CHECK(own.plies[2].ply_thickness == Approx(1.5 * 0.16e-3));
    CHECK(other.plies[0].areal_weight == Approx(0.370));
}

TEST_CASE("a new fabric comes from the library with its materials and can then be scaled") {
    const Board board = changed({{"layer.upper glass.areal_weight_scale", 2.0, ""},
                                 {"layer.upper glass.fabric", std::string("biax-680"), ""}});
    const Fabric& fabric = board.fabrics.at(layer(board, "upper glass").fabric);
    const Fabric& shipped = shipped_library().fabrics.at("biax-680");
    REQUIRE(fabric.plies.size() == shipped.plies.size());
    CHECK(fabric.plies[0].areal_weight == Approx(2 * shipped.plies[0].areal_weight));
    CHECK(board.materials.contains(shipped.resin));
    CHECK(layer(board, "lower glass").fabric == "triax-740");
}

TEST_CASE("an isotropic material's other moduli follow its modulus") {
    const Board board = changed({{"material.abs.E_GPa", 3.0, ""}});
    const Material& abs = board.materials.at("abs");
    CHECK(abs.E2 == Approx(3e9));
    CHECK(abs.G12 == Approx(3e9 / (2 * (1 + abs.nu12))));
}

TEST_CASE("wrong changes are refused together, each with its place, and nothing else is wrong") {
    const std::string found =
        refused({{"core.thicknes_scale", 1.0, "s.toml:3:5"},
                 {"planform.polygon_mm", 250.0, "s.toml:4:5"},
                 {"layer.lower glass.fabric", std::string("biax-681"), "s.toml:5:5"},
                 {"core.thickness_scale", -1.0, "s.toml:6:5"},
                 {"layer.base.thickness_mm", std::string("thick"), "s.toml:7:5"}});
    CHECK_THAT(found, Contains("s.toml:3:5") && Contains("core.thickness_scale"));
    CHECK_THAT(found, Contains("s.toml:4:5") && Contains("its file has no such number"));
    CHECK_THAT(found, Contains("s.toml:5:5") && Contains("biax-680"));
    CHECK_THAT(found, Contains("s.toml:6:5") && Contains("0.05"));
    CHECK_THAT(found, Contains("s.toml:7:5") && Contains("found the text \"thick\""));
}

TEST_CASE("values of the outline draw it again, whatever their order, and refuse no board") {
    const Board board = changed({{"planform.waist_width_mm", 295.0, ""},
                                 {"planform.nose_width_mm", 310.0, ""},
                                 {"planform.tail_width_mm", 305.0, ""},
                                 {"stance.width_mm", 530.0, ""}});
    CHECK(width_at(board.planform, board.planform.running_length / 2) == Approx(0.310));
    CHECK(width_at(board.planform, board.planform.shape->waist_x) == Approx(0.295));
    CHECK(board.stance->width == Approx(0.53));
    CHECK_THAT(refused({{"planform.waist_x_mm", 600.0, "s.toml:2:1"}}),
               Contains("s.toml:2:1") && Contains("no board of this shape"));
    CHECK_THAT(refused({{"stance.width_mm", 1300.0, "s.toml:2:1"}}), Contains("foot"));
    CHECK_THAT(refused({{"core.station_mm[2]", -600.0, "s.toml:2:1"}}), Contains("stations meet"));
}

TEST_CASE("a material that cannot exist is refused after the change") {
    CHECK_THAT(refused({{"material.own.nu12", 0.9, "s.toml:2:1"},
                        {"material.own.E2_GPa", 200.0, "s.toml:3:1"}}),
               Contains("own"));
}

TEST_CASE("every listed path of a board can be set to a value of its kind") {
    Board board = read_text_board(demo_board_text());
    const std::vector<std::string> paths = design_value_paths(board);
    CHECK(paths.size() > 60);
    CHECK(std::is_sorted(paths.begin(), paths.end()));
    for (const std::string& path : paths) {
        CAPTURE(path);
        const bool fabric = path.ends_with(".fabric");
        const std::string unknown =
            fabric ? refused({{path, std::string("triax-740"), ""}}) : refused({{path, 1e9, ""}});
        CHECK(unknown.find("no design value") == std::string::npos);
    }
}
