#include "io/materials/tolerances.hpp"

#include <algorithm>
#include <numbers>

#include <catch2/catch.hpp>

#include "io/materials/design_paths.hpp"
#include "io/write/design_path.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const std::string header = "[tolerance]\n";

std::string with_tolerances(const std::string& lines) {
    std::string text = demo_board_text();
    const std::size_t from = text.find(header);
    return text.replace(from, text.find("[limits]") - from, header + lines);
}

double deviation(const Board& board, const std::string& path) {
    const auto all = tolerances_of(board, shipped_library());
    const auto found = std::find_if(
        all.begin(), all.end(), [&](const Tolerance& one) { return path_of(one.value) == path; });
    return found == all.end() ? 0 : found->sd;
}

std::string tolerance_complaint(const std::string& lines) {
    return complaint_of([&] { (void)read_text_board(with_tolerances(lines)); });
}

} // namespace

TEST_CASE("a tolerance is of the path itself before its group, of the board before the library") {
    const Board board = read_text_board(with_tolerances(
        "\"core.thickness_mm\" = 0.08\n\"core.thickness_mm[3]\" = 0.1\n"
        "\"layer.*.angle_deg\" = 2\n\"layer.rib*.angle_deg\" = 3\n"
        "\"material.*.E1_GPa\" = \"7 %\"\n\"layer.base.thickness_mm\" = \"10%\"\n"));
    CHECK(deviation(board, "core.thickness_mm[0]") == Approx(0.08e-3).epsilon(1e-14));
    CHECK(deviation(board, "core.thickness_mm[3]") == Approx(0.1e-3).epsilon(1e-14));
    CHECK(deviation(board, "layer.base.angle_deg") == Approx(2 * std::numbers::pi / 180));
    CHECK(deviation(board, "layer.ribbon.angle_deg") == Approx(3 * std::numbers::pi / 180));
    CHECK(deviation(board, "material.ash.E1_GPa") ==
          Approx(0.07 * board.materials.at("ash").E1).epsilon(1e-14)); // the library says 5 %
    CHECK(deviation(board, "material.ash.E2_GPa") ==
          Approx(0.05 * board.materials.at("ash").E2).epsilon(1e-14));
    CHECK(deviation(board, "material.steel.E_GPa") ==
          Approx(0.03 * board.materials.at("steel").E1).epsilon(1e-14));
    CHECK(deviation(board, "layer.base.thickness_mm") == Approx(0.12e-3).epsilon(1e-14));
    CHECK(deviation(board, "mass_only.resin_gsm") == Approx(0.03).epsilon(1e-14));
    CHECK(deviation(board, "core.thickness_scale") == 0); // said nowhere
}

TEST_CASE("a tolerance may be of where something begins or ends: a hand lays a ribbon to 4 mm") {
    const Board board = read_text_board(
        with_tolerances("\"layer.*.zone.x_mm\" = 4\n\"layer.ribbon.zone.x_mm[1]\" = 6\n"
                        "\"core.station_mm\" = 0.5\n\"edge.x_mm\" = 3\n"));
    CHECK(deviation(board, "layer.ribbon.zone.x_mm[0]") == Approx(4e-3).epsilon(1e-14));
    CHECK(deviation(board, "layer.ribbon.zone.x_mm[1]") == Approx(6e-3).epsilon(1e-14));
    CHECK(deviation(board, "core.station_mm[2]") == Approx(0.5e-3).epsilon(1e-14));
    CHECK(deviation(board, "edge.x_mm[0]") == Approx(3e-3).epsilon(1e-14));
    CHECK_THAT(tolerance_complaint("\"core.station_mm[99]\" = 1\n"),
               Contains("no design value of this board"));
}

TEST_CASE("every default of the library has a source, and every kind of value has a default") {
    const Board board = read_text_board(with_tolerances(""));
    for (const Tolerance& one : tolerances_of(board, shipped_library())) {
        INFO(path_of(one.value));
        CHECK(one.sd > 0);
        CHECK_FALSE(one.source.empty());
        CHECK(one.source != "[tolerance] of the board");
    }
    std::vector<std::string> paths = number_paths(board);
    std::erase_if(paths, [&](const std::string& path) {
        return path == "core.thickness_scale" ||               // its stations scatter
               find_design(board, path)->id.kind->moves_lines; // not unless somebody says so
    });
    CHECK(tolerances_of(board, shipped_library()).size() == paths.size());
    CHECK(tolerances_of(board, MaterialLibrary{}).empty());
    const TestFolder folder("tolerances");
    const std::string metal = "[material.a]\nE_GPa = 1\nnu = 0.3\ndensity_kgm3 = 1\n"
                              "[material.a.source]\nall = \"x\"\n[tolerance]\n";
    (void)folder.write("a.toml", metal + "\"layer.*.angle_deg\" = { value = 1 }\n");
    CHECK_THROWS_WITH(read_material_library(folder.path()),
                      Contains("a.toml:8:") && Contains("source: missing"));
    (void)folder.write("a.toml", metal + "\"layer.*.angle_deg\" = { value = 0, source = \"x\" }\n");
    CHECK_THROWS_WITH(read_material_library(folder.path()), Contains("a number above 0 (deg)"));
}

// Half of all boards drawn with such a deviation could not be, next to none with seven of them.
TEST_CASE("no pattern gives a deviation to the creep of what does not creep, its own path does") {
    const std::string cure = "[cure]\nstress_free_C = 80\n";
    const auto with_cure = [&](const std::string& lines) {
        return read_text_board(with_tolerances(lines) + cure);
    };
    const Board plain = with_cure("");
    CHECK(plain.materials.at("uhmwpe").slow == 0.4);
    CHECK(deviation(plain, "material.uhmwpe.slow") == Approx(0.2 * 0.4).epsilon(1e-14));
    CHECK(plain.materials.at("steel").slow == 1);
    CHECK(deviation(plain, "material.steel.slow") == 0);
    CHECK(deviation(plain, "material.epoxy.slow") == 0);
    const Board own = with_cure("\"material.*.slow\" = 0.05\n\"material.ash.slow\" = 0.01\n");
    CHECK(deviation(own, "material.uhmwpe.slow") == Approx(0.05).epsilon(1e-14));
    CHECK(deviation(own, "material.steel.slow") == 0);
    CHECK(deviation(own, "material.ash.slow") == Approx(0.01).epsilon(1e-14));
}

TEST_CASE("a tolerance that is none is told with its place") {
    CHECK_THAT(tolerance_complaint("\"core.thickness_mm\" = 0\n"),
               Contains("core.thickness_mm") &&
                   Contains("found 0; accepted: one standard deviation, "
                            "a number above 0 (mm)"));
    CHECK_THAT(tolerance_complaint("\"core.thickness_mm\" = -0.1\n"), Contains("found -0.1"));
    CHECK_THAT(tolerance_complaint("\"core.thickness_mm\" = \"0 %\"\n"),
               Contains("above 0 and up to 100"));
    CHECK_THAT(tolerance_complaint("\"core.thickness_mm\" = \"3 mm\"\n"), Contains("\"3 %\""));
    CHECK_THAT(tolerance_complaint("\"layer.base.angle_deg\" = \"3 %\"\n"),
               Contains("a percentage of an angle makes no sense"));
    CHECK_THAT(tolerance_complaint("\"layer.*.angel_deg\" = 1\n"),
               Contains("no design value of this board fits"));
    CHECK_THAT(tolerance_complaint("\"layer.bass.angle_deg\" = 1\n"),
               Contains("did you mean 'layer.base.angle_deg'?"));
    CHECK(tolerance_complaint("\"fabric.*.fibre_volume_fraction\" = 0.01\n").empty());
}

TEST_CASE("a tolerance on what no number follows is read and named as one without effect") {
    const Board board = read_text_board(
        with_tolerances("\"layer.ribbon.zone.width_mm\" = 0.2\n\"core.thickness_mm\" = 0.1\n"));
    CHECK(tolerances_without_effect(board) ==
          std::vector<std::string>{"layer.ribbon.zone.width_mm"});
}

TEST_CASE("design values know their key, their value and the patterns that mean them") {
    const Board board = read_text_board(demo_board_text());
    const auto paths = number_paths(board);
    CHECK(key_of_path("core.thickness_mm[12]") == "core.thickness_mm");
    CHECK(key_of_path("layer.a.b.angle_deg") == "layer.angle_deg");
    CHECK(key_of_path("layer.a.b.zone.x_mm[1]") == "layer.zone.x_mm");
    CHECK(key_of_path("layer.a.zones[3].outline_mm[0]") == "layer.zone.outline_mm");
    CHECK(key_of_path("edge.flange.width_mm") == "edge.flange.width_mm");
    CHECK(covered_paths("core.thickness_mm", paths).size() == 7);
    CHECK(covered_paths("layer.*.angle_deg", paths) == covered_paths("layer.angle_deg", paths));
    CHECK(covered_paths("layer.*.angle_deg", paths).size() == board.layers.size());
    CHECK(covers("material.*.E*_GPa", "material.e-glass.E_GPa"));
    CHECK_FALSE(covers("material.*.E*_GPa", "material.e-glass.nu"));
    CHECK_FALSE(covers("*a*b*", "ba"));
    CHECK(find_design(board, "core.thickness_mm[2]")->value == board.core->thickness.value[2]);
    CHECK(find_design(board, "layer.lower glass.areal_weight_scale")->value == 1);
    CHECK(find_design(board, "material.own.nu12")->value == 0.27);
    CHECK_FALSE(find_design(board, "material.own.Xt_MPa").has_value());
    CHECK_FALSE(find_design(board, "core.thickness_mm[7]").has_value());
    CHECK_FALSE(find_design(board, "core.thickness_mm[-1]").has_value());
    CHECK_FALSE(find_design(board, "layer.core.thickness_mm").has_value());
    CHECK(std::none_of(paths.begin(), paths.end(), [](const std::string& path) {
        return path.ends_with(".fabric") || path.ends_with("_MPa") || path.ends_with("_1e6K");
    }));
}
