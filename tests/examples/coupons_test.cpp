// What the pages of the two coupons to tap say.
#include <cmath>

#include <catch2/catch.hpp>

#include "io/design/number_names.hpp"
#include "io/design/read_bench.hpp"
#include "io/read/read_board.hpp"
#include "io/write/number_name.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/design/calibrate.hpp"
#include "solver/response/cross_section.hpp"
#include "tests/places.hpp"

using namespace vrid;

namespace {

const std::string torsion = std::string(source_dir) + "/examples/coupon-torsion/";
const std::string blank = std::string(source_dir) + "/examples/coupon-core-blank/";

// The panel that was solved for the invented readings of coupon-torsion/bench.toml.
Board panel_behind_the_sheet(Board board) {
    for (double& thickness : board.core->thickness.value) {
        thickness = 5.94e-3;
    }
    board.fabrics.at("triax-740").fibre_volume_fraction = 0.50;
    Material& poplar = board.materials.at("poplar");
    poplar.E1 = 9.5e9;
    poplar.E2 = 0.8e9;
    poplar.G12 = 0.70e9;
    poplar.G13 = 0.49e9;
    poplar.density = 421;
    return board;
}

const FittedReading& reading(const Calibration& calibration, const std::string& name) {
    for (const FittedReading& one : calibration.readings) {
        if (number_name(one.reading.number) == name) {
            return one;
        }
    }
    throw std::out_of_range(name);
}

// On the mesh of the cases that were read.
Calibration fit_of(const Board& board, const Bench& bench) {
    std::vector<NumberId> read;
    for (const BenchReading& one : bench.readings) {
        read.push_back(one.number);
    }
    Session session(board, {}, cases_of(read));
    return calibrate(session, bench);
}

} // namespace

TEST_CASE(
    "a torsion peak gives the torsion stiffness by the page's formula, on the drawn coupon and "
    "on one of other wood, resin content and thickness") {
    const Board drawn = read_board(torsion + "board.toml", load_material_library());
    for (const Board& board : {drawn, panel_behind_the_sheet(drawn)}) {
        NumbersOptions options;
        options.slopes = false;
        const BoardNumbers found =
            board_numbers(board,
                          {parse_number("mass", board), parse_number("free-modes mode 2", board),
                           parse_number("thickness@0", board), parse_number("GJ@0", board)},
                          options);
        const double mass = found.numbers[0].quantity.value;
        const double f = found.numbers[1].quantity.value;
        const double h = found.numbers[2].quantity.value;
        const double L = 0.6;
        const double b = 0.15;
        const double GJ = 0.968 * 4 * L * L * f * f * (mass / L) * (b * b + h * h) / 12;
        CHECK(GJ == Approx(found.numbers[3].quantity.value).epsilon(3e-3));
    }
}

TEST_CASE("calibrate finds the torsion stiffness of the panel behind the sheet, 4 % below the one "
          "expected, to half a percent") {
    const MaterialLibrary library = load_material_library();
    const Board board = read_board(torsion + "board.toml", library);
    const Calibration fitted = fit_of(board, read_bench(torsion + "bench.toml", board, library));
    const double expected = cross_section(board, 0).GJ;
    const double truth = cross_section(panel_behind_the_sheet(board), 0).GJ;
    CHECK(truth < 0.965 * expected);
    CHECK(reading(fitted, "GJ@0").after.value == Approx(truth).epsilon(5e-3));
    for (const FittedReading& one : fitted.readings) {
        CHECK(one.fits);
    }
}

TEST_CASE("taps of a spruce plate give its moduli and three modes that the fit did not use within "
          "1.5 % (measured peaks of plate 2L, source in the file)") {
    const MaterialLibrary library = load_material_library();
    const Board board = read_board(blank + "board.toml", library);
    const Calibration fitted = fit_of(board, read_bench(blank + "bench.toml", board, library));
    for (const std::string name : {"free-modes mode 3", "free-modes mode 5", "free-modes mode 6"}) {
        const FittedReading& mode = reading(fitted, name);
        CAPTURE(name);
        CHECK(mode.after.value == Approx(mode.reading.value).epsilon(0.015));
        CHECK(mode.before.value > 1.03 * mode.reading.value); // the book's wood is too stiff
    }
    // of E1, E2, G12, nu12, G13, G23 the last three stay the tolerances' choice
    CHECK(fitted.untouched == std::vector<std::size_t>{3, 4, 5});
    CHECK(fitted.values[0].after == Approx(10.33e9).epsilon(2e-3));
    CHECK(fitted.values[2].after == Approx(0.636e9).epsilon(2e-3));
}
