#include "io/read/board_problems.hpp"

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"
#include "tests/places.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

std::vector<Problem> warnings_of(const std::string& text) {
    return judged_warnings(read_named_board({text, "board.toml", ""}, shipped_library()));
}

std::string all_of(const std::vector<Problem>& warnings) {
    std::string all;
    for (const Problem& warning : warnings) {
        all += warning.place + ": " + warning.message + "\n";
    }
    return all;
}

std::string changed(const std::string& from, const std::string& to) {
    std::string text = demo_board_text();
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

// A change of the demo board; '@' in the new text marks where the warning must point.
struct Odd {
    std::string from, to, says;
};

void check_odd(const Odd& odd) {
    INFO("change: " << odd.from << " -> " << odd.to);
    std::string text = changed(odd.from, odd.to);
    const auto at = text.find('@');
    REQUIRE(at != std::string::npos);
    text.erase(at, 1);
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<long>(at), '\n');
    const auto column = at - text.rfind('\n', at);
    const std::string place = "board.toml:" + std::to_string(line) + ":" + std::to_string(column);
    const std::vector<Problem> warnings = warnings_of(text);
    INFO("expected at " << place << ": " << odd.says << "\nwarned:\n" << all_of(warnings));
    CHECK(std::any_of(warnings.begin(), warnings.end(), [&](const Problem& warning) {
        return warning.place == place && warning.message.find(odd.says) != std::string::npos;
    }));
}

} // namespace

TEST_CASE("a usual board and the examples give no warning") {
    CHECK(all_of(warnings_of(demo_board_text())).empty());
    int boards = 0;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(source_dir) + "/examples")) {
        const std::filesystem::path board = entry.path() / "board.toml";
        if (std::filesystem::exists(board)) {
            ++boards;
            INFO(board);
            CHECK(all_of(judged_warnings(
                             read_named_board(board_text(board.string()), shipped_library())))
                      .empty());
        }
    }
    CHECK(boards >= 6);
}

TEST_CASE("what is hardly a board is warned of at its place in the file") {
    const std::vector<Odd> all{
        {"thickness_mm = 1.2", "thickness_mm = @12", "the sheet is 12 mm"},
        {"thickness_mm = 0.5", "thickness_mm = @0.05", "the sheet is 0.05 mm"},
        {"fibre_volume_fraction = 0.48", "fibre_volume_fraction = @0.8", "fraction is 0.8"},
        {"[[-782.5, 1.8]", "[@[-850, 1.8]", "beyond the tail tip is 67.5 mm"},
        {"[787.5, 1.8]]\nstrips", "@[817.5, 1.8]]\nstrips", "beyond the nose tip is 30 mm"},
        {"[567.5, 2.5], [787.5, 1.8]]\nstrips", "@[400, 2.5]]\nstrips",
         "from the nose contact line is 167.5 mm"},
        {"running_length_mm = 1135", "running_length_mm = @400", "the nose is 55 %"},
        {"waist_width_mm = 250", "waist_width_mm = @400", "of nose and tail, is 139.9 %"},
        {"width_mm = 560", "width_mm = @1060",
         "skipped: nose-flex, tail-flex, nose-twist, tail-twist, stance-twist"},
        {"\"uhmwpe\"", "@\"polyamide\"", "lies below the core"},
        {"\"rubber\"\nthickness", "@\"uhmwpe\"\nthickness", "lies above the core"},
        {"[[-782.5, 1.8], [-567.5, 2.5], [-292.5, 7.1], [-12.5, 6.8]",
         "@[[-782.5, 1.8], [-567.5, 2.5], [-292.5, 7.1], [-12.5, 60]", "the board's thickness is"},
        {"width_mm = 36", "width_mm = @150", "the core ends at 14"},
        {"width_mm = 36", "width_mm = @150", "; the strips after it are never used"},
        {"z_mm = [[-782.5, 44], [-567.5, 0]", "z_mm = @[[-600, 9], [-567.5, 0]",
         "the smallest radius is "},
        {"width_mm = 18, x_mm", "width_mm = @120, x_mm", "would reach to 156 mm"},
    };
    for (const Odd& odd : all) {
        check_odd(odd);
    }
}

TEST_CASE("a mirror image that no piece from the roll is, turned over or not, is warned of") {
    const std::string ribbon = "\"carbon-ud-300\"\nangle_deg = 5";
    const auto with = [&](const std::string& fabric) {
        std::string text = changed(ribbon, "\"" + fabric + "\"\nangle_deg = 5");
        return all_of(warnings_of(
            text + "\n[fabric.square]\nresin = \"epoxy\"\nfibre_volume_fraction = 0.45\nplies = [\n"
                   "  { fibre = \"e-glass\", angle_deg = 0, areal_weight_gsm = 300 },\n"
                   "  { fibre = \"e-glass\", angle_deg = -90, areal_weight_gsm = 300 },\n]\n"));
    };
    CHECK(with("square").empty());
    for (const char* fabric : {"triax-680", "biax-680"}) {
        CHECK(with(fabric).find("layer.ribbon.mirror: the mirror image is computed with every ply "
                                "of " +
                                std::string(fabric)) != std::string::npos);
    }
}

TEST_CASE("weights, shares of nothing and an edge without a base are warned of") {
    const auto warned = [](const std::string& text, const std::string& what) {
        const std::string all = all_of(warnings_of(text));
        INFO(all);
        CHECK(all.find(what) != std::string::npos);
    };
    warned(changed("resin_gsm = 300", "resin_gsm = 9000"), "planform: the board's weight for its");
    warned(changed("resin_gsm = 300", "resin_gsm = 0") + // [limits] is the last table
               "[tolerance.mass_only]\nresin_gsm = \"3 %\"\n",
           "tolerance.mass_only.resin_gsm: a percentage of a value that is 0");
    warned(changed("areal_weight_gsm = 370", "areal_weight_gsm = 9000"),
           "layer.lower glass.fabric: the layer is ");
    warned(changed("name = \"base\"\nmaterial = \"uhmwpe\"\nthickness_mm = 1.2",
                   "name = \"base\"\nfabric = \"triax-740\""),
           "edge: it replaces the first layer, which is a fabric");
    std::string along = changed("E1_GPa = 40\nE2_GPa = 10", "E1_GPa = 1900\nE2_GPa = 10");
    const std::string ply = "ply_material = \"own\", angle_deg = ";
    along.replace(along.find(ply) + ply.size(), 3,
                  "0"); // far stiffer along the board than in twist
    warned(along, "layer: GJ over EI is ");
    const std::string all = all_of(warnings_of(along)); // once, not at each of five stations
    CHECK(all.find("GJ over EI is") == all.rfind("GJ over EI is"));
}

TEST_CASE("a board made in C++ is judged without a file") {
    CHECK(implausible(demo()).empty());
    Board board = demo();
    board.file = "";
    board.layers.front().thickness = 0.0045;
    const std::vector<Problem> found = implausible(board);
    REQUIRE(found.size() == 1);
    CHECK(found.front().place.empty());
    CHECK(found.front().message.starts_with("layer.base.thickness_mm: the sheet is 4.5 mm"));
}

TEST_CASE("of a coupon only the layers are judged") {
    const std::string core =
        "[core]\nthickness_mm = [[-50, 9]]\nstrips = [{ material = \"poplar\", "
        "width_mm = 20 }]\n[[layer]]\nname = \"core\"\ncore = true\n";
    const auto coupon = [](const std::string& rest) {
        return "format = 1\nname = \"coupon\"\n[planform]\nrectangle_mm = [300, 50]\n" + rest;
    };
    const std::string sheet =
        "[[layer]]\nname = \"sheet\"\nmaterial = \"aluminium\"\nthickness_mm = 30\n";
    CHECK(warnings_of(coupon(sheet)).empty()); // a plate of one thick sheet
    CHECK(warnings_of(coupon(core)).empty());
    CHECK(warnings_of(coupon(core + sheet)).size() == 1);
}

TEST_CASE("a warning that reading itself has is told, two ribbons that cross") {
    const std::vector<Problem> warnings = warnings_of(changed(
        "from_mm = [-520, 60], to_mm = [520, 60]", "from_mm = [-520, -60], to_mm = [520, 60]"));
    REQUIRE(warnings.size() == 1);
    CHECK(warnings.front().message.starts_with("layer.ribbon.mirror: its mirror image crosses it"));
}
