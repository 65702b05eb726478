#include "io/design/read_lot.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "io/design/lot_board.hpp"
#include "io/design/read_rig.hpp"
#include "io/write/design_path.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Lot lot_of(const std::string& text) {
    return read_lot_text(text, "lot.csv", demo());
}

std::string lot_complaint(const std::string& text) {
    return complaint_of([&] { (void)lot_of(text); });
}

std::string rows(int count, const std::string& cells) {
    std::string all;
    for (int i = 0; i < count; ++i) {
        all.append("K").append(std::to_string(i)).append(cells).append("\n");
    }
    return all;
}

} // namespace

TEST_CASE("a lot with dates, words, missing cells and decimal commas is read") {
    std::string text = "date;serial;mass;thickness@-270;batch.glass\n"
                       "2026-09-02;B;3,02;9,4;r1\n"
                       "2026-09-01T14:30;A;-;9,5;r2\n"
                       ";C;3,1;;\n";
    for (int i = 0; i < 6; ++i) {
        text.append("2026-09-03;K").append(std::to_string(i)).append(";3;9;r3\n");
    }
    text.append(";;;;\n;;;;;;\n"); // as a sheet saves rows without a board
    const Lot lot = lot_of(text);
    REQUIRE(lot.serials.size() == 9);
    CHECK(lot.serials[0] == "A"); // C has no date and goes with the board before it in the file
    CHECK(lot.serials[1] == "C");
    CHECK(lot.serials[2] == "B");
    CHECK(lot.readings.count(0, 0) == 0);
    CHECK(std::isnan(lot.readings.value(0, 0)));
    CHECK(lot.readings.value(1, 0) == Approx(0.0095));
    CHECK(lot.readings.value(0, 2) == Approx(3.02));
    REQUIRE(lot.words.size() == 1);
    CHECK(lot.words[0].words[0] == "r2");
}

TEST_CASE("the same serial again is a repeat: its cells hold means, and the rig is measured") {
    std::string text = "serial,mass\n";
    for (int i = 0; i < 8; ++i) {
        const std::string serial = std::string("K").append(std::to_string(i));
        text += serial + ",3.00\n" + serial + ",3.02\n";
    }
    const Lot lot = lot_of(text);
    REQUIRE(lot.serials.size() == 8);
    CHECK(lot.readings.value(0, 3) == Approx(3.01));
    CHECK(lot.readings.count(0, 3) == 2);
    const LotRig rig = rig_of(lot, Rig{});
    CHECK(rig.sd[0] == Approx(std::sqrt(2e-4))); // eight pairs, 2 (0.01)^2 each, one degree each
    CHECK(rig.of_repeats[0]);
}

TEST_CASE("what is wrong with a file of readings is told with line and column") {
    const std::string good = rows(8, ",3.0,9.4");
    CHECK_THAT(lot_complaint("number,mass\n"), Contains("lot.csv:1:1: found no column serial"));
    CHECK_THAT(lot_complaint("serial,mas,thickness@-270\n" + good),
               Contains("lot.csv:1:8: ") && Contains("did you mean 'mass'"));
    CHECK_THAT(lot_complaint("serial,mass,thickness@9999\n" + good),
               Contains("lot.csv:1:13: ") && Contains("off the board"));
    CHECK_THAT(lot_complaint("serial,mass,thickness@-270\n" + good + "X,abc,9.4\nY,0,9\nZ,3,-1\n"),
               Contains("lot.csv:10:3: found \"abc\"") && Contains("lot.csv:11:3: found \"0\"") &&
                   Contains("lot.csv:12:5: found \"-1\""));
    CHECK_THAT(lot_complaint("serial,date,mass\nA,2026-09-01,3\nA,2026-09-02,3\n"),
               Contains("lot.csv:3:3: ") && Contains("2026-09-01 before"));
    CHECK_THAT(lot_complaint("serial,date,mass\nA,1.9.2026,3\n"), Contains("lot.csv:2:3: "));
    CHECK_THAT(lot_complaint("serial,mass\n" + rows(7, ",3.0")), Contains("found 7 boards"));
    CHECK_THAT(lot_complaint("serial,mass,nose-twist\n" + rows(8, ",3,") + "X,3,4.1\n"),
               Contains("lot.csv:1:13: found one reading of nose-twist"));
    CHECK_THAT(lot_complaint("serial,mass\nA,3,02\n"),
               Contains("lot.csv:2:5: ") && Contains("decimal comma"));
    CHECK_THAT(lot_complaint("serial,mass\nA,\"3,02\"\n"),
               Contains("lot.csv:2:3: ") && Contains("decimal comma"));
    CHECK_THAT(lot_complaint("serial,mass\n,3.0\n"), Contains("lot.csv:2:1: found no serial"));
    CHECK_THAT(lot_complaint("serial,mass,mass\n"), Contains("lot.csv:1:13: "));
    CHECK_THAT(lot_complaint("serial\nA\n"), Contains("no column of readings"));
    CHECK_THAT(lot_complaint(""), Contains("is empty"));
    CHECK_THAT(lot_complaint("serial,edge.loss_nose\n"), Contains("no bench measures"));
}

TEST_CASE("a column without a deviation of its rig is refused with what would help") {
    const Lot lot = lot_of("serial,mass,nose-twist\n" + rows(8, ",3,4.1"));
    const std::string told = complaint_of([&] { (void)rig_of(lot, Rig{}); });
    CHECK_THAT(told, Contains("lot.csv:1:8: ") && Contains("lot.csv:1:13: ") &&
                         Contains("[[reading]]") && Contains("5 repeats"));
    const Rig rig = read_rig_text("[[reading]]\nnumber = \"mass\"\nsd = 0.003\nbias_sd = 0.001\n",
                                  "rig.toml", demo());
    CHECK(rig_reading(rig, "mass")->bias_sd == Approx(0.001));
    CHECK_THAT(complaint_of([&] { (void)rig_of(lot, rig); }),
               !Contains("lot.csv:1:8: ") && Contains("lot.csv:1:13: "));
}

TEST_CASE("what is wrong with a rig's file is told with line and column") {
    const auto told = [](const std::string& text) {
        return complaint_of([&] { (void)read_rig_text(text, "rig.toml", demo()); });
    };
    CHECK_THAT(told("[[reading]]\nnumber = \"nose-twst\"\nsd = 1\n"),
               Contains("rig.toml:2:") && Contains("did you mean 'nose-twist'"));
    CHECK_THAT(told("[[reading]]\nnumber = \"mass\"\nsd = -1\n"), Contains("rig.toml:3:"));
    CHECK_THAT(told("[[reading]]\nnumber = \"mass\"\nsd = 1\nbias = 2\n"),
               Contains("rig.toml:4:") && Contains("bias_sd"));
    CHECK_THAT(told("[[free]]\nvalue = \"core.thicknes_mm\"\n"), Contains("rig.toml:2:"));
}

// The angle of an isotropic sheet moves a reading by 1e-29 of it, by rounding: a lot whose mean was
// off was told that it could have turned by 1e24 of its tolerances.
TEST_CASE("a value that moves a reading by rounding alone is none that a lot can tell of") {
    const MaterialLibrary library = shipped_library();
    const std::string text = R"(format = 1
name = "strip"
[planform]
rectangle_mm = [700, 60]
running_length_mm = 600
[[layer]]
name = "sheet"
material = "aluminium"
thickness_mm = 5
[stance]
width_mm = 300
foot_length_mm = 60
foot_width_mm = 60
)";
    const Board strip = read_text_board(text);
    const Lot lot = read_lot_text("serial,mass,nose-flex\n" + rows(8, ",0.6,60"), "lot.csv", strip);
    const Rig rig = read_rig_text("[[reading]]\nnumber = \"mass\"\nsd = 0.001\n"
                                  "[[reading]]\nnumber = \"nose-flex\"\nsd = 0.1\n",
                                  "rig.toml", strip);
    Settings settings;
    settings.degree = 2;
    Session session(strip, settings, {"nose-flex"});
    std::vector<std::string> paths;
    const LotBoard board = lot_board(session, lot, rig, rig_of(lot, rig), library);
    for (const DesignId& value : board.values) {
        paths.push_back(path_of(value));
    }
    CHECK(paths == std::vector<std::string>{"layer.sheet.thickness_mm", "material.aluminium.E_GPa",
                                            "material.aluminium.density_kgm3",
                                            "material.aluminium.nu"});
    // each can be moved as far as a board file accepts it: a sheet of 5 mm down to 0, up to 200 mm
    CHECK(board.model.least(0) == Approx(-0.005));
    CHECK(board.model.most(0) == Approx(0.195));
    CHECK((board.model.least.array() < 0).all());
    CHECK((board.model.most.array() > 0).all());
    // a width, whose slopes come from moved lines: a mass goes with it, a cantilever a
    // little faster, as its clamp holds the width
    const Board cut = read_text_board(text + "[tolerance]\n\"planform.rectangle_mm[1]\" = 0.5\n");
    Session sawn(cut, settings, {"nose-flex"});
    const LotBoard wide = lot_board(sawn, lot, rig, rig_of(lot, rig), library);
    const auto width = std::ranges::find(wide.values, "planform.rectangle_mm[1]",
                                         [](const DesignId& id) { return path_of(id); });
    REQUIRE(width != wide.values.end());
    const auto column = width - wide.values.begin();
    CHECK(wide.model.value_sd(column) == Approx(0.5e-3));
    CHECK(wide.model.slopes(0, column) == Approx(wide.model.mean(0) / 0.06).epsilon(1e-6));
    CHECK(wide.model.slopes(1, column) == Approx(wide.model.mean(1) / 0.06).epsilon(0.05));
}
