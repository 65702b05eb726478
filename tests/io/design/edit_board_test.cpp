#include "io/design/edit_board.hpp"

#include <algorithm>
#include <sstream>

#include <catch2/catch.hpp>

#include "io/materials/design_paths.hpp"
#include "io/toml/read_text.hpp"
#include "io/write/design_path.hpp"
#include "io/write/units.hpp"
#include "mesh/board/material_keys.hpp"
#include "tests/asserted.hpp"
#include "tests/io/demo_board.hpp"
#include "tests/places.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

BoardText source_of(const std::string& text) {
    return {text, "board.toml", ""};
}

Board board_of(const std::string& text) {
    return read_board_text(source_of(text), shipped_library());
}

Board changed(const std::string& text, const std::vector<Change>& changes) {
    NamedBoard all = read_named_board(source_of(text), shipped_library());
    apply_changes(all.board, changes, all.named);
    return all.board;
}

std::string edited(const std::string& text, const std::vector<Change>& changes) {
    return edit_board(source_of(text), shipped_library(), changes);
}

// All numbers that the section of a board is made of, layer by layer, whatever fabrics are called.
std::vector<double> section_numbers(const Board& board) {
    std::vector<double> all{board.mass_only.resin};
    const auto material = [&](const std::string& name) {
        const Material& m = board.materials.at(name);
        all.insert(all.end(), {m.E1, m.E2, m.nu12, m.G12, m.G13, m.G23, m.density, m.alpha1,
                               m.alpha2, m.strengths.Xt.value_or(-1), m.strengths.Xc.value_or(-1),
                               m.strengths.Yt.value_or(-1), m.strengths.Yc.value_or(-1),
                               m.strengths.S12.value_or(-1), m.strengths.S13.value_or(-1),
                               m.strengths.S23.value_or(-1)});
    };
    for (const Layer& layer : board.layers) {
        all.insert(all.end(), {layer.angle, layer.thickness});
        if (layer.kind == LayerKind::material) {
            material(layer.material);
        }
        if (layer.kind != LayerKind::fabric) {
            continue;
        }
        const Fabric& fabric = board.fabrics.at(layer.fabric);
        all.push_back(fabric.fibre_volume_fraction);
        for (const FabricPly& ply : fabric.plies) {
            all.insert(all.end(), {ply.angle, ply.areal_weight, ply.ply_thickness});
            material(ply.fibre.empty() ? ply.ply_material : ply.fibre);
        }
        if (!fabric.resin.empty()) {
            material(fabric.resin);
        }
    }
    if (board.core) {
        all.insert(all.end(), board.core->thickness.value.begin(),
                   board.core->thickness.value.end());
        for (const Strip& strip : board.core->strips) {
            material(strip.material);
        }
    }
    for (const std::string& name :
         {board.edge ? board.edge->material : "", board.sidewall ? board.sidewall->material : "",
          board.tip_spacer ? board.tip_spacer->material : ""}) {
        if (!name.empty()) {
            material(name);
        }
    }
    for (const DesignValue& value : design_board(board).values) {
        if (value.kind().moves_lines) {
            all.push_back(value.value);
        }
    }
    return all;
}

void check_same(const Board& a, const Board& b) {
    const auto x = section_numbers(a);
    const auto y = section_numbers(b);
    REQUIRE(x.size() == y.size());
    for (std::size_t i = 0; i < x.size(); ++i) {
        CHECK(x[i] == Approx(y[i]).epsilon(2e-12).margin(1e-300));
    }
}

// A value inside every range that is not there already and has few digits.
std::variant<double, std::string> other_value(const Board& board, const std::string& path) {
    const auto found = find_design(board, path);
    if (found && found->id.kind->moves_lines) { // a board of a shape that is near
        const std::string key = range_of(*found->id.kind);
        return from_si(key, found->value) + (key.ends_with("fullness") ? 0.01 : 0.25);
    }
    const auto ends = [&](const char* word) { return path.ends_with(word); };
    if (ends(".fabric")) {
        return std::string("biax-680");
    }
    if (path.starts_with("core.thickness_mm")) {
        return 5.375;
    }
    if (ends("_scale")) {
        return 1.07;
    }
    if (ends("_percent")) {
        return 0.3125;
    }
    if (ends(".slow")) {
        return 0.75;
    }
    if (ends("fibre_volume_fraction")) {
        return 0.515;
    }
    if (ends(".nu12") || ends(".nu")) {
        return 0.2625;
    }
    if (ends("1_GPa")) { // above E2, for nu12
        return 377.25;
    }
    return ends("_deg") ? -3.5 : 12.875;
}

// How many lines of a text are not in another one, in this order (longest common subsequence).
std::size_t lines_lost(const std::string& text, const std::string& other) {
    const auto lines = [](const std::string& all) {
        std::vector<std::string> found;
        std::istringstream in(all);
        for (std::string line; std::getline(in, line);) {
            found.push_back(line);
        }
        return found;
    };
    const auto a = lines(text);
    const auto b = lines(other);
    std::vector<std::size_t> kept(b.size() + 1, 0);
    for (const std::string& line : a) {
        std::size_t corner = 0;
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t above = kept[j + 1];
            kept[j + 1] = line == b[j] ? corner + 1 : std::max(above, kept[j]);
            corner = above;
        }
    }
    return a.size() - kept.back();
}

std::string with_line_ends(const std::string& text, const std::string& end) {
    std::string all;
    for (const char c : text) {
        all += c == '\n' ? end : std::string(1, c);
    }
    return all;
}

std::vector<std::string> example_texts() {
    std::vector<std::string> texts{
        demo_board_text() + "\n[cure]\nstress_free_C = 85\nmould_z_mm = [[-700, 30], [-500, 0], "
                            "[0, 5.5], [500, 0.0], [710, 31]] # milled\n"};
    for (const char* name : {"coupon-sandwich", "coupon-triax", "nh-154-kieselbach", "nh-157-biax",
                             "nh-157-querwind", "nh-161-lattenzaun"}) {
        texts.push_back(read_text(std::string(source_dir) + "/examples/" + name + "/board.toml"));
    }
    return texts;
}

} // namespace

TEST_CASE("the design values of the examples can be edited in their files") {
    // a third of them, another one in each text: entries of a list are alike
    constexpr std::size_t each = 3 * (64 / few_with_asserts(64));
    std::size_t text_number = 0;
    for (const std::string& text : example_texts()) {
        const Board board = board_of(text);
        const std::vector<std::string> paths = design_value_paths(board);
        for (std::size_t i = text_number++ % 3; i < paths.size(); i += each) {
            const std::string& path = paths[i];
            const std::vector<Change> changes{{path, other_value(board, path), ""}};
            INFO(board.name << ": " << path);
            const std::string now = edited(text, changes);
            check_same(board_of(now), changed(text, changes));
            CHECK(now != text);
            CHECK(lines_lost(text, now) <= 3); // the lines that hold the numbers
        }
    }
}

TEST_CASE("a station of a mould stands in the file beside its height") {
    const std::string text = demo_board_text() + "\n[cure]\nstress_free_C = 85\n"
                                                 "mould_z_mm = [[-500, 2], [20, 5], [500, 0]]\n";
    const std::string now = edited(text, {{"cure.mould_mm[1]", -30.5, ""}});
    CHECK_THAT(now, Contains("mould_z_mm = [[-500, 2], [-30.5, 5], [500, 0]]"));
    CHECK_THROWS_WITH(edited(text, {{"cure.mould_mm[1]", 500.0, ""}}), Contains("mould"));
}

TEST_CASE("an edit changes the characters of its numbers and no others") {
    const std::string text =
        "\xef\xbb\xbf# K\xc3\xa4se, \xe2\x82\xac 3\r\n" + with_line_ends(demo_board_text(), "\r\n");
    std::string expected = text;
    const auto put = [&](const std::string& was, const std::string& is) {
        REQUIRE(expected.find(was) != std::string::npos);
        expected.replace(expected.find(was), was.size(), is);
    };
    put("[-292.5, 7.1]", "[-292.5, 6.85]");
    put("angle_deg = 5\r\n", "angle_deg = -12.5\r\n");
    put("thickness_mm = 1.2\r\n", "thickness_mm = 1.35\r\n");
    put("resin_gsm = 300", "resin_gsm = 280");
    put("flip = true\r\n", "flip = true\r\nangle_deg = 4\r\n"); // was absent
    CHECK(edited(text, {{"core.thickness_mm[2]", 6.8500000000000005, ""},
                        {"layer.ribbon.angle_deg", -12.5, ""},
                        {"layer.base.thickness_mm", 1.35, ""},
                        {"mass_only.resin_gsm", 280.0, ""},
                        {"layer.upper glass.angle_deg", 4.0, ""}}) == expected);
}

TEST_CASE("a value that is there already leaves the file as it is") {
    const std::string text = demo_board_text();
    CHECK(edited(text, {}) == text);
    CHECK(edited(text, {{"core.thickness_mm[2]", 7.1, ""}, {"core.thickness_scale", 1.0, ""}}) ==
          text);
}

TEST_CASE("letters beyond ASCII before a number do not shift its place") {
    const std::string plate = "format = 1\nname = \"p\"\n[planform]\nrectangle_mm = [200, 20]\n";
    const std::string layer = "layer = [{ name = \"H\xc3\xb6lle~\xe2\x82\xac\", thickness_mm = ";
    const std::string rest = ", material = \"steel\" }] # \xc3\xbc\n";
    const std::string text =
        "mass_only = { inserts_per_foot = 0, insert_mass_g = 8 }\n" + layer + "2.0" + rest + plate;
    const std::string path = "layer.H\xc3\xb6lle~\xe2\x82\xac";
    CHECK(edited(text, {{path + ".thickness_mm", 2.5, ""}}) ==
          "mass_only = { inserts_per_foot = 0, insert_mass_g = 8 }\n" + layer + "2.5" + rest +
              plate);
    CHECK(edited(text, {{path + ".angle_deg", 30.0, ""}, {"mass_only.resin_gsm", 100.0, ""}}) ==
          "mass_only = { inserts_per_foot = 0, insert_mass_g = 8, resin_gsm = 100 }\n" + layer +
              "2.0, material = \"steel\", angle_deg = 30 }] # \xc3\xbc\n" + plate);
}

TEST_CASE("absent keys are found a place in every kind of table") {
    const std::string plate = "format = 1\nname = \"p\"\n";
    const std::string rest = "[planform]\nrectangle_mm = [200, 20]\n[[layer]]\nname = \"a\"\n"
                             "thickness_mm = 2\nmaterial = \"steel\" # last";
    const std::vector<Change> resin{{"mass_only.resin_gsm", 120.0, ""}};
    CHECK(edited(plate + rest, resin) == plate + rest + "\n\n[mass_only]\nresin_gsm = 120\n");
    CHECK(edited(plate + "mass_only = {}\n" + rest, resin) ==
          plate + "mass_only = { resin_gsm = 120 }\n" + rest);
    CHECK(edited(plate + "mass_only.inserts_per_foot = 0\nmass_only.insert_mass_g = 8 # dots\n" +
                     rest,
                 resin) == plate +
                               "mass_only.inserts_per_foot = 0\nmass_only.insert_mass_g = 8 # "
                               "dots\nmass_only.resin_gsm = 120\n" +
                               rest);
    CHECK(edited(plate + "[mass_only] # none\n" + rest, resin) ==
          plate + "[mass_only] # none\nresin_gsm = 120\n" + rest);
    CHECK(edited(plate + rest, {{"layer.a.angle_deg", 1.5, ""}}) ==
          plate + rest + "\nangle_deg = 1.5");
}

TEST_CASE("a library material comes into the file with a word on what was changed") {
    const std::string text = demo_board_text();
    const double old = from_si("E1_GPa", shipped_library().materials.at("ash").E1);
    const std::string now = edited(text, {{"material.ash.E1_GPa", 14.25, ""}});
    CHECK(now.starts_with(text));
    CHECK_THAT(now, Contains("# ash of the library with E1_GPa 14.25 instead of 13.2; the rest"));
    CHECK(old == Approx(13.2));
    CHECK(board_of(now).materials.at("ash").E1 == 14.25e9);
    CHECK(board_of(now).materials.at("ash").source.at("E2_GPa") ==
          shipped_library().materials.at("ash").source.at("E2_GPa"));
    // A second edit finds it in the file.
    CHECK(edited(now, {{"material.ash.E1_GPa", 15.0, ""}}).size() < now.size() + 5);
}

TEST_CASE("a scaled fabric changes in place only if every layer that uses it is scaled") {
    const std::string text =
        read_text(std::string(source_dir) + "/examples/nh-157-querwind/board.toml");
    const std::string both = edited(text, {{"layer.lower glass.areal_weight_scale", 1.1, ""},
                                           {"layer.upper glass.areal_weight_scale", 1.1, ""}});
    std::string expected = text;
    expected.replace(expected.find("= 370 }"), 7, "= 407 }");
    expected.replace(expected.find("= 185 }"), 7, "= 203.5 }");
    expected.replace(expected.find("= 185 }"), 7, "= 203.5 }");
    CHECK(both == expected);

    const std::string one = edited(text, {{"layer.lower glass.areal_weight_scale", 1.1, ""}});
    CHECK_THAT(one, Contains("fabric = \"triax-740 for lower glass\"") &&
                        Contains("# triax-740 of this file with areal weights x 1.1; ") &&
                        Contains("[fabric.\"triax-740 for lower glass\"]"));
    CHECK(board_of(one).layers[5 - 1].fabric == "triax-740");
    // Its own from now on, so that it changes in place.
    const std::string again = edited(one, {{"layer.lower glass.areal_weight_scale", 2.0, ""}});
    CHECK(lines_lost(one, again) == 3);

    const std::string apart = edited(text, {{"layer.lower glass.areal_weight_scale", 1.1, ""},
                                            {"layer.upper glass.areal_weight_scale", 0.9, ""}});
    CHECK_THAT(apart, Contains("areal_weight_gsm = 407 },\n") && Contains("= 333 },\n"));
}

TEST_CASE("a tolerance on a library fabric still has its fabric after a scale") {
    std::string text = demo_board_text();
    const std::string key = "\"core.thickness_mm\" = 0.05\n";
    text.replace(text.find(key), key.size(), "fabric.carbon-ud-300.fibre_volume_fraction = 0.02\n");
    const std::vector<Change> changes{{"layer.ribbon.areal_weight_scale", 1.5, ""},
                                      {"layer.nose patch.areal_weight_scale", 0.5, ""}};
    check_same(board_of(edited(text, changes)), changed(text, changes));
}

TEST_CASE("many changes at once are the same board as one after the other in memory") {
    const std::string text = demo_board_text();
    const std::vector<Change> changes{
        {"layer.lower glass.areal_weight_scale", 1.05, ""},
        {"fabric.triax-740.fibre_volume_fraction", 0.5, ""},
        {"core.thickness_mm[3]", 6.1, ""},
        {"core.thickness_scale", 1.03, ""},
        {"layer.nose patch.fabric", std::string("biax-680"), ""},
        {"fabric.biax-680.fibre_volume_fraction", 0.44, ""},
        {"layer.nose patch.areal_weight_scale", 1.25, ""},
        {"material.epoxy.E_GPa", 3.3, ""},
    };
    check_same(board_of(edited(text, changes)), changed(text, changes));
}

TEST_CASE("an edit that cannot be is told as in a suite") {
    CHECK_THROWS_WITH(edited(demo_board_text(), {{"core.thicknes_scale", 1.0, "--set"}}),
                      Contains("--set") && Contains("did you mean 'core.thickness_scale'?"));
    const std::string braces = "material = { x = { E_GPa = 1, nu = 0.3, density_kgm3 = 9 } }\n"
                               "format = 1\nname = \"p\"\n[planform]\nrectangle_mm = [200, 20]\n"
                               "[[layer]]\nname = \"a\"\nthickness_mm = 2\nmaterial = \"steel\"\n";
    CHECK_THROWS_WITH(edited(braces, {{"material.steel.nu", 0.25, ""}}),
                      Contains("board.toml:1:12") && Contains("[material.NAME]"));
}
