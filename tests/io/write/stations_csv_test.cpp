#include "io/write/stations_csv.hpp"

#include <algorithm>
#include <sstream>

#include <catch2/catch.hpp>

#include "solver/lines_along.hpp"
#include "tests/io/write/solved_example.hpp"

using namespace vrid;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
        lines.push_back(line);
    }
    return lines;
}

} // namespace

TEST_CASE("stations.csv has one line a station, bench units, and lines of each solved case") {
    const auto lines = lines_of(stations_csv(tests::solved_example()));
    REQUIRE(lines.size() == 4);
    CHECK(lines[0] ==
          "x_mm,width_mm,core_thickness_mm,thickness_mm,mass_per_length_kgpm,EI_Nm2,GJ_Nm2,"
          "centre-flex_deflection_mm,centre-flex_twist_deg,"
          "full-twist_deflection_mm,full-twist_twist_deg");
    // Flex at 1 N: 0.125 mm; twist at 1 deg of turn: half a radian per radian is half a degree.
    CHECK(lines[1] == "-500,200,0,2,3.14,26.7,42.5,0,0,0,-0.5");
    CHECK(lines[2] == "0,200,0,2,3.14,26.7,42.5,0.125,0,0,0");
}

TEST_CASE(
    "lines.csv has the lines of every solved case from tip to tip, each centimetre, at 1 N or "
    "1 deg") {
    const SolvedBoard solved = tests::solved_example();
    const auto lines = lines_of(lines_csv(solved));
    CHECK(lines[0] == "x_mm,centre-flex_deflection_mm,centre-flex_twist_deg,"
                      "full-twist_deflection_mm,full-twist_twist_deg");
    const auto [tail, nose] = x_extent(solved.board.planform);
    const LinesAlong along = lines_along(solved.board.planform, solved.study);
    REQUIRE(lines.size() == along.x.size() + 1);
    CHECK(lines.size() == Approx((nose - tail) / 0.01 + 2).margin(1));
    CHECK(std::stod(lines[1]) == Approx(tail * 1e3 + 0.1));
    CHECK(std::stod(lines.back()) == Approx(nose * 1e3 - 0.1));
    for (const std::string& line : lines) {
        CHECK(std::count(line.begin(), line.end(), ',') == 4);
    }
    for (std::size_t k = 1; k < lines.size(); ++k) { // the twist's motion is w = x y
        const double x = std::stod(lines[k]) / 1e3;
        CHECK(std::stod(lines[k].substr(lines[k].rfind(',') + 1)) == Approx(x).margin(1e-9));
    }
}

TEST_CASE("every line of stations.csv has as many cells as its head") {
    SolvedBoard solved = tests::solved_example();
    solved.study.cases[0].twist.clear(); // a case without a twist line
    solved.study.stations[1].x = 0.123;  // a station that is no mesh line
    const auto lines = lines_of(stations_csv(solved));
    for (const std::string& line : lines) {
        CHECK(std::count(line.begin(), line.end(), ',') == 10);
    }
    CHECK(lines[2].ends_with(",,,,"));
}
