// The sheet's tables, against lines written by hand.
#include <fstream>

#include <catch2/catch.hpp>

#include "io/write/staged_files.hpp"
#include "tests/degree.hpp"
#include "tests/io/demo_board.hpp"
#include "tests/io/sheet/sheet_example.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

// By name.
std::map<std::string, std::string> tables_of(const ShopSheet& sheet) {
    const TestFolder folder("sheet-tables");
    StagedFiles files(folder.path());
    add_tables(sheet, files);
    std::map<std::string, std::string> all;
    const std::vector<std::string> names = files.names();
    files.publish();
    for (const std::string& name : names) {
        std::ifstream in(folder.path() + "/" + name);
        all[name] = {std::istreambuf_iterator<char>(in), {}};
    }
    return all;
}

} // namespace

TEST_CASE("pieces, rolls, resin and weights have a line each in mm, mm2, g and percent") {
    const auto tables = tables_of(sheet_example());
    CHECK(tables.size() == 4);
    CHECK(tables.at("cutting.csv") ==
          "piece,layer,made_of,mirror_image,roll_angle_deg,turned_over,count,area_mm2,length_mm,"
          "width_mm,dry_mass_g,file\n"
          "1,base,uhmwpe,,0,,1,30000,300,100,34.5,piece-01-base.svg\n"
          "2,\"Lower \"\"glass\"\"\",triax,,45,yes,1,30000,300,100,34.5,piece-02-lower-glass.svg\n"
          "3,\"Lower \"\"glass\"\"\",triax,yes,45,yes,1,30000,300,100,34.5,"
          "piece-03-lower-glass-mirror.svg\n");
    CHECK(tables.at("rolls.csv") ==
          "fabric,boards,roll_width_mm,length_mm,net_area_mm2,waste_percent,pieces_joined\n"
          "triax,5,1270,2250,310000,12.5,0\nveil,5,,,150000,,\n");
    CHECK(tables.at("resin.csv") == "layer,resin,one_board_g,boards,all_boards_g\n"
                                    "\"Lower \"\"glass\"\"\",epoxy,50,5,250\n"
                                    "glue lines,,6,5,30\nsum,,56,5,280\n");
    CHECK(tables.at("weights.csv") == "step,what,adds_g,sum_g,one_standard_deviation_g\n"
                                      "1,base,34.5,34.5,1.2\n"
                                      "2,\"glass, twice\",100,134.5,3.4\n");
}

TEST_CASE("core, edge and mould have tables where there are any") {
    ShopSheet sheet = sheet_example();
    CoreBlank& core = sheet.core.emplace();
    core.sanding = {{-0.15, 0, 0.0025, 0.004, true}, {-0.14, 0.01, 0.0026, -0.003, false}};
    core.strips = {{"ash", "poplar", Range{-0.1, 0.11}, 4, 0.018, 0.25},
                   {"poplar", "", {}, 2, 0.036, 0.3}};
    sheet.edges = {{-0.15, 0.14, 0.31, 90 * degree, 0.25, 0.12, 1}};
    sheet.press = PressHeights{PressLine::existing_mould,
                               {Interpolation::linear, {-0.15, 0.15}, {0.001, 0.004}}};
    const auto tables = tables_of(sheet);
    CHECK(tables.at("sanding.csv") ==
          "x_from_tail_end_mm,x_mm,thickness_mm,slope_mm_per_m,station\n"
          "0,-150,2.5,4,yes\n10,-140,2.6,-3,\n");
    CHECK(tables.at("strips.csv") == "material,count,width_mm,length_mm,from_x_mm,to_x_mm,beyond\n"
                                     "ash,4,18,250,-100,110,poplar\npoplar,2,36,300,,,\n");
    CHECK(tables.at("edge.csv") ==
          "from_x_mm,to_x_mm,length_mm,bends_deg,tightest_radius_mm,at_x_mm,sharp_corners\n"
          "-150,140,310,90,250,120,1\n");
    CHECK(tables.at("mould.csv") ==
          "x_mm,height_mm\n-150,1\n-100,1.5\n-50,2\n0,2.5\n50,3\n100,3.5\n"
          "150,4\n");
    sheet.pieces.clear();
    sheet.board.mass_only.resin = 0;
    CHECK_FALSE(tables_of(sheet).contains("resin.csv"));
}

TEST_CASE("lengths in tables are told to a tenth of a micrometre: what is drawn has 20 nm") {
    ShopSheet sheet = sheet_example();
    sheet.core.emplace().sanding = {{-0.766999999, 0.000000001, 0.0025, 0.004, true}};
    sheet.pieces[0].length = 1.534000001;
    sheet.pieces[0].width = 0.25012345678;
    const auto tables = tables_of(sheet);
    CHECK(tables.at("sanding.csv").ends_with("\n0,-767,2.5,4,yes\n"));
    CHECK(tables.at("cutting.csv").find(",1534,250.1235,34.5,") != std::string::npos);
}

TEST_CASE("a roll is turned by more than -90 and up to 90 degrees: it has two ends") {
    const auto turned = [](double degrees) {
        CutPiece piece;
        piece.roll_angle = degrees * degree;
        return roll_degrees(piece);
    };
    for (const auto& [angle, shown] : std::vector<std::pair<double, double>>{
             {0, 0}, {45, 45}, {-45, -45}, {90, 90}, {135, -45}, {180, 0}, {-135, 45}, {270, 90}}) {
        CHECK(turned(angle) == Approx(shown).margin(1e-9));
    }
}
