#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/io/construction_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

std::string complaint(const std::string& core, const std::string& below) {
    return complaint_of([&] { (void)read_text_board(construction_text(core, below)); });
}

/// "board.toml:LINE:" of the line in which a text stands.
std::string line_of(const std::string& text, const std::string& part) {
    const auto at = text.find(part);
    REQUIRE(at != std::string::npos);
    return "board.toml:" +
           std::to_string(1 +
                          std::count(text.begin(), text.begin() + static_cast<long>(at), '\n')) +
           ":";
}

} // namespace

TEST_CASE("a polygon whose sides cross, touch or go back is refused at its corner") {
    for (const char* corners :
         {"[[0, 0], [40, 40], [40, 0], [0, 40]]", "[[0, 0], [40, 0], [40, 0], [0, 40]]",
          "[[0, 0], [40, 0], [20, 0], [20, 40]]",
          "[[0, 0], [40, 0], [40, 40], [20, 0], [0, 40]]"}) {
        const std::string layer =
            rubber_layer(std::string("zone = { polygon_mm = ") + corners + " }");
        const std::string all = complaint(plain_strips, layer);
        INFO(corners << "\n" << all);
        CHECK_THAT(all, Contains(line_of(construction_text(plain_strips, layer), "polygon_mm")) &&
                            Contains("layer.rubber.zone.polygon_mm[") &&
                            Contains("sides that meet at corners only"));
    }
    CHECK_THAT(complaint(plain_strips, rubber_layer("zone = { polygon_mm = [[0, 0], [40, 0]] }")),
               Contains("three corners"));
    CHECK_THAT(complaint(plain_strips, rubber_layer("zone = { polygon_mm = [[900, 0], [940, 0], "
                                                    "[900, 40]] }")),
               Contains("misses the board"));
    CHECK_THAT(complaint(plain_strips, rubber_layer("zone = { y_mm = [0, 5], polygon_mm = [[0, 0], "
                                                    "[40, 0], [0, 40]] }")),
               Contains("y_mm: not accepted beside polygon_mm"));
}

TEST_CASE("zones stand instead of a zone, and their mirror images must not lie on them") {
    const std::string two = "zones = [{ x_mm = [0, 50], y_mm = [5, 20] }, ";
    CHECK(
        complaint(plain_strips, rubber_layer(two + "{ y_mm = [30, 50] }]\nmirror = true")).empty());
    CHECK_THAT(complaint(plain_strips, rubber_layer("zone = { x_mm = [0, 50] }\nzones = []")),
               Contains("layer.rubber.zones: not accepted beside zone"));
    CHECK_THAT(complaint(plain_strips, rubber_layer("zones = []")), Contains("at least one zone"));
    CHECK_THAT(
        complaint(plain_strips, rubber_layer(two + "{ x_mm = [40, 60], y_mm = [-20, -10] }]\n"
                                                   "mirror = true")),
        Contains("overlaps it over 200 mm2")); // 10 x 10, on either side
}

TEST_CASE("an inlay deeper than the core, or without one, is refused at its place") {
    const std::string deep = rubber_layer("zone = { x_mm = [-50, 50] }\ninlay = true");
    const std::string thin = plain_strips + "cross_mm = [[-60, 0], [60, -7]]\n";
    const std::string all = complaint(thin, deep);
    CHECK_THAT(all, Contains(line_of(construction_text(thin, deep), "inlay = true")) &&
                        Contains("layer.rubber.inlay: the core is 1 mm thick") &&
                        Contains("2 mm are let into it"));
    std::string coreless = construction_text("", rubber_layer("inlay = true"));
    coreless.erase(coreless.find("[core]"), coreless.find("[[layer]]") - coreless.find("[core]"));
    const std::string core_layer = "[[layer]]\nname = \"core\"\ncore = true\n";
    coreless.erase(coreless.find(core_layer), core_layer.size());
    CHECK_THAT(complaint_of([&] { (void)read_text_board(coreless); }),
               Contains("layer.rubber.inlay: there is no layer with core = true"));
}

TEST_CASE("a core bevelled down to nothing is refused at cross_mm, with where") {
    const std::string all = complaint(plain_strips + "cross_mm = [[-60, 0], [60, -8]]\n", "");
    CHECK_THAT(all, Contains("core.cross_mm: the core is 0 mm thick") && Contains("y = 60 mm") &&
                        Contains("above 0 everywhere"));
    CHECK(complaint(plain_strips + "cross_mm = [[-60, 0], [60, -7.9]]\n", "").empty());
}

TEST_CASE("halves of the core come in two, without strips for both; a fill needs an end") {
    const std::string left = "strips_left = [{ material = \"wood\", width_mm = 10 }]\n";
    const std::string right = "strips_right = [{ material = \"other\", width_mm = 10 }]\n";
    CHECK(complaint(left + right, "").empty());
    CHECK_THAT(complaint(left, ""), Contains("core.strips_right: missing"));
    CHECK_THAT(complaint(left + right + plain_strips, ""),
               Contains("core.strips: not accepted beside strips_left"));
    CHECK_THAT(
        complaint("strips = [{ material = \"wood\", width_mm = 10, fill = \"other\" }]\n", ""),
        Contains("core.strips[0].fill: not accepted without x_mm"));
    CHECK_THAT(complaint("strips = [{ material = \"wood\", width_mm = 10, x_mm = [0, 50], fill = "
                         "\"othre\" }]\n",
                         ""),
               Contains("other"));
}

TEST_CASE("an included file gives materials and fabrics, counts in the hash, and nothing else") {
    const TestFolder folder("include");
    std::string text = "include = \"our/stock.toml\"\n" +
                       construction_text("strips = [{ material = \"ours\", width_mm = 10 }]\n", "");
    const auto read = [&](const std::string& board) {
        return read_board_text({board, folder.path() + "/board.toml", folder.path()},
                               shipped_library());
    };
    std::filesystem::create_directories(folder.path() + "/our");
    const std::string ours = "[material.ours]\nE_GPa = 9\nnu = 0.3\ndensity_kgm3 = 450\n";
    (void)folder.write("our/stock.toml", "include = \"more.toml\"\n" + ours);
    (void)folder.write("our/more.toml", "[material.wood]\nE_GPa = 1\nnu = 0.3\ndensity_kgm3 = 1\n"
                                        "[material.ours]\nE_GPa = 1\nnu = 0.3\ndensity_kgm3 = 1\n");
    const Board board = read(text);
    CHECK(board.materials.at("ours").density == 450); // the including file's goes over
    (void)folder.write("our/stock.toml", "include = \"more.toml\"\n" + ours + "# a word more\n");
    CHECK(read(text).hash != board.hash);

    (void)folder.write("our/more.toml", "include = \"../board.toml\"\n");
    (void)folder.write("board.toml", text);
    const std::string loop = complaint_of([&] { (void)read(text); });
    CHECK_THAT(loop, Contains("more.toml:1:") && Contains("include") && Contains("circle"));
    (void)folder.write("our/more.toml", "name = \"x\"\n[material.bad]\nE_GPa = -1\nnu = 0.3\n"
                                        "density_kgm3 = 1\n");
    const std::string wrong = complaint_of([&] { (void)read(text); });
    CHECK_THAT(wrong, Contains("more.toml:1:") && Contains("name: unknown key") &&
                          Contains("more.toml:3:") && Contains("material.bad.E_GPa"));
    std::filesystem::remove(folder.path() + "/our/more.toml");
    CHECK_THAT(complaint_of([&] { (void)read(text); }), Contains("stock.toml:1:"));
}
