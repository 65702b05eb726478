#include "io/read/read_board.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <sstream>

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

// A closed oval of n points, 1500 x 280 mm, as an outline file.
std::string oval(int n) {
    std::ostringstream csv;
    csv.precision(15);
    csv << "x_mm,y_mm\n";
    for (int i = 0; i < n; ++i) {
        const double t = 2 * std::numbers::pi * i / n;
        csv << 750 * std::cos(t) << "," << 140 * std::sin(t) << "\n";
    }
    return csv.str();
}

const std::string plate_layer = "[[layer]]\nname = \"plate\"\nmaterial = \"steel\"\n"
                                "thickness_mm = 2\n";

std::string plate_text(const std::string& planform) {
    return "format = 1\nname = \"plate\"\n[planform]\n" + planform + plate_layer;
}

} // namespace

TEST_CASE("a board file is read into SI") {
    const Board board = read_text_board(demo_board_text());
    CHECK(board.name == "Demo 157");
    CHECK(board.file == "board.toml");
    CHECK(board.planform.running_length == 1.135);
    REQUIRE(board.planform.shape.has_value());
    CHECK(board.planform.shape->waist_x == -0.0185);
    CHECK(board.planform.shape->nose_fullness == 0.6);
    REQUIRE(board.core.has_value());
    CHECK(board.core->thickness.interpolation == Interpolation::smooth);
    CHECK(board.core->thickness.x.front() == -0.7825);
    CHECK(board.core->thickness.value[2] == Approx(7.1e-3).epsilon(1e-15));
    CHECK(board.core->strips.size() == 2);
    CHECK(board.core->strips[1].width == 0.018);
    CHECK((*board.core->strips[1].x)[0] == -0.42);
    CHECK_FALSE(board.core->resolve);
    CHECK(board.tip_spacer->x[1] == 0.665);
    CHECK(board.edge->flange->fill == 0.5);
    CHECK(board.edge->flange->thickness == 0.5e-3);
    CHECK(board.sidewall->width == 0.008);
    CHECK(board.stance->front() == Approx(0.2675).epsilon(1e-15));
    CHECK(board.stance->rear() == Approx(-0.2925).epsilon(1e-15));
    CHECK(board.mass_only.resin == 0.3);
    CHECK(board.mass_only.inserts_per_foot == 12);
    CHECK(board.mass_only.insert_mass == 0.0085);
    CHECK(board.rest_shape->value[2] == 4.8e-3);
}

TEST_CASE("layers are read upwards with kind, angle and zone") {
    const Board board = read_text_board(demo_board_text());
    REQUIRE(board.layers.size() == 8);
    CHECK(board.layers[0].kind == LayerKind::material);
    CHECK(board.layers[0].thickness == 1.2e-3);
    CHECK(board.layers[1].kind == LayerKind::fabric);
    CHECK(board.layers[1].fabric == "triax-740");
    CHECK(board.layers[2].angle == Approx(5 * std::numbers::pi / 180).epsilon(1e-15));
    CHECK(board.layers[2].mirror);
    REQUIRE(board.layers[2].zone.ribbon.has_value());
    CHECK(board.layers[2].zone.ribbon->to.x() == 0.52);
    CHECK((*board.layers[2].zone.x)[1] == 0.5);
    CHECK(board.layers[3].kind == LayerKind::core);
    CHECK((*board.layers[4].zone.y)[0] == 0.02);
    CHECK((*board.layers[5].zone.outline)[1] == 0.025);
    CHECK(board.layers[6].flip);
    CHECK(board.layers[7].name == "top sheet");
}

TEST_CASE("a board keeps the materials and fabrics it uses, the file's before the library's") {
    const Board board = read_text_board(demo_board_text());
    CHECK(board.fabrics.size() == 2);
    CHECK(board.fabrics.at("triax-740").plies[0].areal_weight == 0.37);
    CHECK(board.fabrics.at("triax-740").plies[2].ply_thickness == 0.16e-3);
    CHECK(board.materials.contains("carbon-standard")); // of the library's carbon-ud-300
    CHECK_FALSE(board.materials.contains("spare"));
    CHECK_FALSE(board.materials.contains("maple"));
    const Material& own = board.materials.at("own");
    CHECK_FALSE(own.isotropic);
    CHECK(own.E1 == 40e9);
    CHECK(own.alpha2 == 26e-6);
    CHECK(own.strengths.S13 == 81e6);
    CHECK(own.source.at("nu12") == "a guess");
    CHECK(own.source.at("E1_GPa") == "our test");
    const Material& steel = board.materials.at("steel");
    CHECK(steel.isotropic);
    CHECK(steel.G23 == Approx(steel.E1 / (2 * (1 + steel.nu12))).epsilon(1e-15));

    std::string text = demo_board_text();
    text += "[material.steel]\nE_GPa = 100\nnu = 0.1\ndensity_kgm3 = 7000\n";
    CHECK(read_text_board(text).materials.at("steel").E1 == 100e9);
}

TEST_CASE("tolerances and limits keep the units of the file") {
    const Board board = read_text_board(demo_board_text());
    CHECK(board.tolerance.at("core.thickness_mm").value == 0.05);
    CHECK(board.tolerance.at("material.e-glass.E_GPa").value == 2);
    CHECK(board.limits.at("nose-twist").min == 3.0);
    CHECK_FALSE(board.limits.at("mass").min.has_value());
}

TEST_CASE("tolerance keys without quotes are the same paths") {
    const Board board =
        read_text_board(plate_text("rectangle_mm = [200, 20]\n") +
                        "[tolerance]\nlayer.plate.thickness_mm = 0.02\nmaterial.steel.nu = 0.01\n");
    CHECK(board.tolerance.at("layer.plate.thickness_mm").value == 0.02);
    CHECK(board.tolerance.at("material.steel.nu").value == 0.01);
}

TEST_CASE("the other planforms are read: rectangle, polygon, drawn outline") {
    const Board coupon = read_text_board(plate_text("rectangle_mm = [200, 20]\n"));
    CHECK(coupon.planform.running_length == 0.2);
    CHECK(area(coupon.planform) == Approx(0.004));
    CHECK_FALSE(coupon.core.has_value());
    const Board shorter =
        read_text_board(plate_text("rectangle_mm = [200, 20]\nrunning_length_mm = 150\n"));
    CHECK(shorter.planform.running_length == 0.15);
    const Board apart = read_text_board(plate_text(
        "rectangle_mm = [200, 20]\nrunning_length_mm = 150\ncontact_right_mm = [-70, 90]\n"));
    CHECK_FALSE(apart.planform.edge_contact[0].has_value());
    CHECK(edge_contacts(apart.planform)[0] == std::array{-0.075, 0.075});
    CHECK(edge_contacts(apart.planform)[1][0] == Approx(-0.07));
    CHECK(edge_contacts(apart.planform)[1][1] == Approx(0.09));
    const Board skew = read_text_board(plate_text(
        "polygon_mm = [[-50, 0], [50, 0], [70, 80], [-30, 80]]\nrunning_length_mm = 50\n"));
    CHECK(area(skew.planform) == Approx(0.008));

    const TestFolder folder("outline");
    const std::string csv = folder.write("oval.csv", oval(60));
    const std::string file = folder.write(
        "board.toml", plate_text("outline_csv = \"oval.csv\"\nrunning_length_mm = 1100\n"));
    const Board drawn = read_board(file, shipped_library());
    CHECK(area(drawn.planform) == Approx(std::numbers::pi * 0.75 * 0.14).epsilon(1e-3));
    CHECK(drawn.planform.running_length == 1.1);

    const std::string hash = drawn.hash; // changes with the outline file
    CHECK(hash.size() == 32);
    CHECK(folder.write("oval.csv", oval(64)) == csv);
    CHECK(read_board(file, shipped_library()).hash != hash);
}

TEST_CASE("the content hash changes with every byte and not with the file's name") {
    const Board board = read_text_board(demo_board_text());
    CHECK(read_board_text({demo_board_text(), "other.toml", ""}, shipped_library()).hash ==
          board.hash);
    CHECK(read_text_board(demo_board_text() + "\n").hash != board.hash);
}

TEST_CASE("names and comments may hold letters beyond ASCII, a byte order mark may lead") {
    std::string text =
        "\xef\xbb\xbf" + plate_text("rectangle_mm = [200, 20]\n") + "# \xc3\xa5ngstr\xc3\xb6m\r\n";
    text.replace(text.find("\"plate\""), 7, "\"Schl\xc3\xbcssel\"");
    CHECK(read_text_board(text).name == "Schl\xc3\xbcssel");
}

TEST_CASE("the key paths of a board name what a variant or a tolerance may set") {
    const auto paths = board_key_paths({demo_board_text(), "board.toml", ""}, shipped_library());
    CHECK(std::is_sorted(paths.begin(), paths.end()));
    for (const char* path :
         {"core.thickness_scale", "core.thickness_mm", "core.thickness_mm[6]",
          "core.strips[1].width_mm", "layer.lower glass.fabric", "layer.lower glass.angle_deg",
          "layer.lower glass.areal_weight_scale", "layer.base.thickness_mm",
          "fabric.triax-740.fibre_volume_fraction", "fabric.carbon-ud-300.fibre_volume_fraction",
          "material.own.E1_GPa", "material.carbon-standard.G23_GPa", "material.steel.nu",
          "mass_only.resin_gsm", "planform.waist_width_mm", "edge.width_mm"}) {
        INFO(path);
        CHECK(std::binary_search(paths.begin(), paths.end(), path));
    }
    CHECK_FALSE(std::binary_search(paths.begin(), paths.end(), "core.thickness_mm[7]"));
    CHECK_FALSE(std::binary_search(paths.begin(), paths.end(), "layer.core.thickness_mm"));
}
