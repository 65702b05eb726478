#include "io/design/what_if.hpp"

#include <catch2/catch.hpp>

#include "solver/response/mass.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

NamedBoard demo_with(const std::vector<std::string>& words) {
    return read_what_if({demo_board_text(), "board.toml", ""}, shipped_library(),
                        settings_of(words));
}

std::string setting_complaint(const std::vector<std::string>& words) {
    return complaint_of([&] { (void)demo_with(words); });
}

} // namespace

TEST_CASE("a value set on the command line is that of a file in which it stands") {
    const Board board =
        demo_with({"stance.width_mm=540", "core.thickness_mm[3] = 7", "layer.base.thickness_mm=1.4",
                   "planform.nose_fullness=0.5", "layer.nose patch.zone.x_mm[1]=600",
                   "core.strips[1].width_mm=12", "rest_shape.z_mm[2]=6", "stance.setback_mm=20",
                   "edge.flange.fill=0.4", "layer.upper glass.flip=false", "sidewall.material=ash",
                   "limits.mass.max=3.2"})
            .board;
    CHECK(board.stance->width == Approx(0.54));
    CHECK(board.stance->setback == Approx(0.02));
    CHECK(board.core->thickness.value[3] == Approx(7e-3));
    CHECK(board.layers[0].thickness == Approx(1.4e-3));
    CHECK(board.planform.shape->nose_fullness == 0.5);
    CHECK((*board.layers[4].zone.x)[1] == Approx(0.6));
    CHECK(board.core->strips[1].width == Approx(0.012));
    CHECK(board.rest_shape->value[2] == Approx(6e-3));
    CHECK(board.edge->flange->fill == 0.4);
    CHECK_FALSE(board.layers[6].flip);
    CHECK(board.sidewall->material == "ash");
    CHECK(*board.limits.at("mass").max == 3.2);
    CHECK(board.layers[1].fabric == demo().layers[1].fabric);
}

TEST_CASE("scales, values of the library and keys that the file leaves out can be set") {
    const NamedBoard read = demo_with(
        {"core.thickness_scale=1.1", "material.poplar.E1_GPa=12", "layer.base.angle_deg=3"});
    CHECK(read.board.core->thickness.value[3] == Approx(1.1 * 6.8e-3));
    CHECK(read.board.materials.at("poplar").E1 == Approx(12e9));
    CHECK(read.set.size() == 3);
}

TEST_CASE("a board with values set says so in its name and has a hash of its own") {
    const NamedBoard read = demo_with({"core.thickness_scale=1.05", "stance.width_mm=540"});
    CHECK(read.board.name == "Demo 157 with core.thickness_scale = 1.05, stance.width_mm = 540");
    CHECK(read.set ==
          std::vector<std::string>{"core.thickness_scale = 1.05", "stance.width_mm = 540"});
    CHECK(read.board.hash != demo().hash);
    CHECK(read.board.hash != demo_with({"core.thickness_scale=1.06"}).board.hash);
    CHECK(demo_with({}).board.hash == demo().hash);
}

TEST_CASE("what cannot be set is said with its path: a name, a kind, a range, twice") {
    CHECK_THAT(setting_complaint({"stance.widht_mm=540"}),
               Contains("\"stance.widht_mm\"") && Contains("stance.width_mm"));
    CHECK_THAT(setting_complaint({"stance.width_mm=wide"}), Contains("accepted: a number"));
    CHECK_THAT(setting_complaint({"stance.width_mm=-3"}), Contains("stance.width_mm: found -3"));
    CHECK_THAT(setting_complaint({"core.thickness_scale=100"}),
               Contains("accepted: a number from 0.05"));
    CHECK_THAT(setting_complaint({"core.thickness_mm=3"}),
               Contains("names several values") && !Contains("did you mean"));
    CHECK_THAT(setting_complaint({"stance.width_mm"}), Contains("accepted: PATH=VALUE"));
    CHECK_THAT(setting_complaint({"stance.width_mm=540", "stance.width_mm=550"}),
               Contains("set twice"));
}
