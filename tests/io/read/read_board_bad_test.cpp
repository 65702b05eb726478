#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "io/read/read_board.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

// One change that breaks the demo board. '@' in the new text marks where the error must point.
struct Broken {
    std::string from, to;
    std::string says; ///< the message must hold this
};

std::vector<Problem> problems_of(const std::string& text) {
    try {
        (void)read_text_board(text);
    } catch (const InputError& error) {
        return error.problems();
    }
    return {};
}

// Takes the '@' out and tells its place.
std::string marked_place(std::string& text) {
    const auto at = text.find('@');
    REQUIRE(at != std::string::npos);
    text.erase(at, 1);
    const auto line_start = text.rfind('\n', at == 0 ? 0 : at - 1);
    const std::size_t column = line_start == std::string::npos ? at + 1 : at - line_start;
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<long>(at), '\n');
    return "board.toml:" + std::to_string(line) + ":" + std::to_string(column);
}

void check_broken(const Broken& broken) {
    std::string text = demo_board_text();
    const auto at = text.find(broken.from);
    INFO("change: " << broken.from << " -> " << broken.to);
    REQUIRE(at != std::string::npos);
    text.replace(at, broken.from.size(), broken.to);
    const std::string place = marked_place(text);
    const auto problems = problems_of(text);
    bool found = false;
    std::string all;
    for (const Problem& problem : problems) {
        found = found ||
                (problem.place == place && problem.message.find(broken.says) != std::string::npos);
        all += problem.place + ": " + problem.message + "\n";
    }
    INFO("expected at " << place << ": " << broken.says << "\nreported:\n" << all);
    CHECK(found);
}

} // namespace

TEST_CASE("the demo board itself is right") {
    CHECK(problems_of(demo_board_text()).empty());
}

TEST_CASE("a broken value in head and planform is named with its place") {
    const std::vector<Broken> table{
        {"format = 1\n", "format = @2\n", "format: found 2; accepted: 1"},
        {"format = 1\n", "@", "format: missing"},
        {"format = 1\n", "format = @\"1\"\n", "format: found the text \"1\""},
        {"format = 1\nname = \"Demo 157\"\n", "@format = 1\n", "name: missing"},
        {"name = \"Demo 157\"", "name = @157", "name: found 157; accepted: a text"},
        {"name = \"Demo 157\"", "name = @\"\"", "name: found a text of 0 bytes"},
        {"[planform]\nrunning_length_mm = 1135\n", "@[planform]\n",
         "planform.running_length_mm: missing"},
        {"waist_width_mm = 250", "waist_width_mm = @-250",
         "planform.waist_width_mm: found -250; accepted: a number from 1 to 2000 (mm)"},
        {"waist_width_mm = 250", "waist_width_mm = @nan", "found nan"},
        {"waist_width_mm = 250", "waist_width_mm = @inf", "found inf"},
        {"waist_width_mm = 250", "waist_width_mm = @1e30", "found 1e+30"},
        {"waist_width_mm = 250", "waist_width_mm = @0", "found 0"},
        {"waist_width_mm = 250", "waist_width_mm = @true", "found true"},
        {"waist_width_mm = 250", "waist_width_mm = @[250]", "found an array of 1"},
        {"waist_width_mm = 250", "waist_width_mm = @2020-01-01", "found a date or time"},
        {"waist_width_mm = 250", "waist_width_mm = @{ a = 1 }", "found a table"},
        {"waist_width_mm = 250", "@waist_widht_mm = 250", "did you mean 'waist_width_mm'?"},
        {"waist_x_mm = -18.5", "waist_x_mm = @600", "between the contact stations"},
        {"nose_fullness = 0.6", "nose_fullness = @0.1", "planform.nose_fullness"},
        {"nose_length_mm = 220", "nose_length_mm = @9999", "planform.nose_length_mm"},
        {"running_length_mm = 1135", "running_length_mm = @4900", "longer than 5 m"},
    };
    for (const Broken& broken : table) {
        check_broken(broken);
    }
}

TEST_CASE("a broken value in the core is named with its place") {
    const std::vector<Broken> table{
        {"interpolation = \"smooth\"", "interpolation = @\"cubic\"",
         "core.interpolation: found the text \"cubic\"; accepted: \"smooth\" or \"linear\""},
        {"[-567.5, 2.5], [-292.5", "@[-882.5, 2.5], [-292.5",
         "core.thickness_mm[1]: found the station -882.5 after -782.5"},
        {"[-567.5, 2.5], [-292.5", "@[-782.5, 2.5], [-292.5", "rise strictly"},
        {"[-567.5, 2.5]", "@[-567.5]",
         "core.thickness_mm[1]: found an array of 1; accepted: a pair"},
        {"[-567.5, 2.5]", "[-567.5, @-2.5]", "core.thickness_mm[1], second: found -2.5"},
        {"[-567.5, 2.5]", "[-567.5, @300]", "a number above 0 to 200 (mm)"},
        {"[-567.5, 2.5]", "[@\"x\", 2.5]", "core.thickness_mm[1], first"},
        {"material = \"poplar\"", "material = @\"popler\"",
         "core.strips[0].material: found the text \"popler\"; accepted: a material of this "
         "file or of the library; did you mean 'poplar'?"},
        {"width_mm = 36", "width_mm = @0", "core.strips[0].width_mm"},
        {"x_mm = [-420, 420]", "x_mm = @[420, -420]", "from below to"},
        {"x_mm = [-420, 420]", "x_mm = @[1420, 1520]", "reaches the board"},
        {"[core]\n", "[core]\nresolve = @1\n", "core.resolve: found 1; accepted: true or false"},
        {"[core]\n", "[core]\n@thikness_scale = 1\n", "core.thikness_scale: unknown key"},
        {"x_mm = [-660, 665]", "x_mm = @[665, -660]", "tip_spacer.x_mm"},
        {"[tip_spacer]\nmaterial = \"abs\"\nx_mm = [-660, 665]",
         "@[tip_spacer]\nmaterial = \"abs\"", "tip_spacer.x_mm: missing"},
    };
    for (const Broken& broken : table) {
        check_broken(broken);
    }
}

TEST_CASE("a broken layer is named with its place") {
    const std::vector<Broken> table{
        {"name = \"lower glass\"", "name = @\"base\"", "a name that no other layer has"},
        {"fabric = \"triax-740\"", "fabric = @\"triax-704\"",
         "layer.lower glass.fabric: found the text \"triax-704\""},
        {"fabric = \"triax-740\"", "fabric = @\"triax-704\"", "did you mean 'triax-740'?"},
        {"core = true", "core = true\nthickness_mm = @7", "[core] gives the thickness"},
        {"[[layer]]\nname = \"core\"\ncore = true", "@[[layer]]\nname = \"core\"\ncore = false",
         "layer.core: found 0 of the keys material, fabric and core"},
        {"[[layer]]\nname = \"base\"\nmaterial",
         "@[[layer]]\nname = \"base\"\nfabric = \"triax-740\"\nmaterial",
         "layer.base: found 2 of the keys"},
        {"[[layer]]\nname = \"base\"\n", "@[[layer]]\n", "layer[0].name: missing"},
        {"thickness_mm = 1.2", "thickness_mm = @-1.2", "layer.base.thickness_mm: found -1.2"},
        {"[[layer]]\nname = \"base\"\nmaterial = \"uhmwpe\"\nthickness_mm = 1.2",
         "@[[layer]]\nname = \"base\"\nmaterial = \"uhmwpe\"", "layer.base.thickness_mm: missing"},
        {"name = \"nose patch\"\nfabric = \"carbon-ud-300\"", "name = \"core 2\"\ncore = @true",
         "layer.core 2.core: found true; accepted: one core layer"},
        {"angle_deg = 5\n", "angle_deg = @400\n", "layer.ribbon.angle_deg"},
        {"flip = true", "flip = @\"yes\"", "layer.upper glass.flip"},
        {"y_mm = [20, 70]", "y_mm = @[70, 20]", "layer.nose patch.zone.y_mm"},
        {"zone = { x_mm = [250, 640], y_mm = [20, 70] }",
         "zone = @{ x_mm = [250, 640], y_mm = [220, 270] }",
         "layer.nose patch.zone: the zone misses the board"},
        {"zone = { x_mm = [250, 640], y_mm = [20, 70] }", "zone = @{ x_mm = [850, 940] }",
         "the zone misses the board"},
        {"y_mm = [20, 70] }", "y_mm = [20, 70], @z_mm = [1, 2] }",
         "layer.nose patch.zone.z_mm: unknown key"},
        {"to_mm = [520, 60]", "to_mm = @[-520, 60]", "a ribbon has a length"},
        {"width_mm = 30, x_mm", "width_mm = 30, y_mm = @[0, 50], x_mm",
         "not accepted beside a ribbon"},
        {"zone = { outline_mm = [0, 25], x_mm = [-400, 400] }",
         "zone = @{ outline_mm = [200, 225] }", "the zone misses the board"},
        {"outline_mm = [0, 25]", "outline_mm = [@-5, 25]", "layer.rubber.zone.outline_mm[0]"},
        {"y_mm = [20, 70] }", "y_mm = [-20, 70] }\nmirror = @true",
         "its mirror image overlaps it over 15600 mm2"}, // 390 x 40
        {", y_mm = [20, 70] }", " }\nmirror = @true", "its mirror image lies on it"},
        {"x_mm = [-400, 400] }", "x_mm = [-400, 400] }\nmirror = @true",
         "its mirror image lies on it"},
        {"mirror = true", "mirror = true\n@miror = false", "did you mean 'mirror'?"},
        {"flip = true", "flip = true\nmirror = @true", "a layer without a zone"},
        {"[[layer]]\nname = \"base\"", "[[layer]]\nname = @\"ba\\nse\"", "on one line"},
    };
    for (const Broken& broken : table) {
        check_broken(broken);
    }
}

TEST_CASE("a broken fabric or material is named with its place") {
    const std::vector<Broken> table{
        {"resin = \"epoxy\"", "resin = @\"epoxi\"", "did you mean 'epoxy'?"},
        {"[fabric.triax-740]\nresin = \"epoxy\"\n", "@[fabric.triax-740]\n",
         "fabric.triax-740.resin: missing"},
        {"fibre_volume_fraction = 0.48", "fibre_volume_fraction = @48",
         "fabric.triax-740.fibre_volume_fraction: found 48; accepted: a number from 0.05 to 0.9"},
        {"areal_weight_gsm = 370", "areal_weight_gsm = @0",
         "fabric.triax-740.plies[0].areal_weight_gsm"},
        {"{ fibre = \"e-glass\", angle_deg = 0, areal", "@{ fibre = \"e-glass\", areal",
         "fabric.triax-740.plies[0].angle_deg: missing"},
        {"ply_thickness_mm = 0.16", "ply_thickness_mm = 0.16, fibre = @\"e-glass\"",
         "not accepted beside ply_material"},
        {"E1_GPa = 40", "E1_GPa = @-40", "material.own.E1_GPa"},
        {"E1_GPa = 40", "E1_GPa = 40\nE_GPa = @40", "an orthotropic material has E1_GPa"},
        {"nu12 = 0.27", "nu12 = @2.1",
         "material.own.nu12: found 2.1; accepted: an absolute value below sqrt(E1/E2) = 2"},
        {"[material.own]\nnote = \"a ply of our own\"\nE1_GPa = 40\n",
         "@[material.own]\nnote = \"a ply of our own\"\n", "material.own.E1_GPa: missing"},
        {"G13_GPa = 4\n", "G13_GPa = @0\n", "material.own.G13_GPa"},
        {"density_kgm3 = 1900", "density_kgm3 = @1.9e6", "material.own.density_kgm3"},
        {"Xt_MPa = 1000", "Xt_MPa = @-1000", "material.own.Xt_MPa"},
        {"nu = 0.3", "nu = @0.5",
         "material.spare.nu: found 0.5; accepted: a number above -1 "
         "and below 0.5"},
        {"nu = 0.3", "nu = 0.3\nalpha2_1e6K = @9", "only alpha1_1e6K"},
        {"nu12 = \"a guess\"", "@nu13 = \"a guess\"", "material.own.source.nu13: unknown key"},
        {"[material.spare]", "[material]\nspear = @3\n[material.spare]", "material.spear"},
    };
    for (const Broken& broken : table) {
        check_broken(broken);
    }
}

TEST_CASE("broken hardware is named with its place") {
    const std::vector<Broken> table{
        {"width_mm = 2.0", "width_mm = @130",
         "edge.width_mm: found 130; accepted: with its "
         "flange, if any, less than half the width"},
        {"width_mm = 8\n", "width_mm = @150\n", "sidewall.width_mm"},
        {"fill = 0.5", "fill = @1.5", "edge.flange.fill"},
        {"fill = 0.5", "@fil = 0.5", "edge.flange.fil: unknown key; did you mean 'fill'?"},
        {"x_mm = [-600, 600]\nflange", "x_mm = @[900, 950]\nflange", "edge.x_mm"},
        {"material = \"steel\"", "material = @\"stele\"", "did you mean 'steel'?"},
        {"width_mm = 560", "width_mm = @1560", "front foot patch lies on the board"},
        {"width_mm = 560", "width_mm = @90", "accepted: more than foot_length_mm, 100: the feet"},
        {"foot_width_mm = 110", "foot_width_mm = @400", "stance.foot_width_mm: found 400"},
        {"[stance]", "[@stnace]", "stnace: unknown key; did you mean 'stance'?"},
        {"inserts_per_foot = 12", "inserts_per_foot = @12.5", "a whole number"},
        {"insert_mass_g = 8.5", "insert_mass_g = @-8.5", "mass_only.insert_mass_g"},
        {"[0, 4.8]", "@4.8", "rest_shape.z_mm[2]: found 4.8; accepted: a pair of numbers"},
        {"[0, 4.8]", "@[-600, 4.8]", "rest_shape.z_mm[2]: found the station -600 after -567.5"},
        {"[[-782.5, 44], [-567.5, 0], [0, 4.8], [567.5, 0], [787.5, 48]]",
         "@[[-300, 0], [0, 60], [300, 0]]", "makes a kink of slope"},
        {"\"core.thickness_mm\" = 0.05", "\"core.thickness_mm\" = @-0.05", "found -0.05"},
        {"\"core.thickness_mm\" = 0.05", "\"core.thikness_mm\" = @0.05",
         "did you mean 'core.thickness_mm'?"},
        {"min = 3.0, max = 5.0", "min = 3.0, max = @2.0", "limits.nose-twist.max"},
        {"min = 3.0, max = 5.0", "@least = 3.0", "limits.nose-twist.least: unknown key"},
        {"mass = { max = 3.4 }", "mass = @3.4", "limits.mass: found 3.4; accepted: a table"},
    };
    for (const Broken& broken : table) {
        check_broken(broken);
    }
}
