// Bars of frequencies where the core is soft: shear rules there, and the board's waves are short.
#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "io/read/read_board.hpp"
#include "solver/study.hpp"
#include "tests/random_board.hpp"

using namespace vrid;

namespace {

Board sandwich(double length_mm, double width_mm, double core_MPa) {
    const std::string half = std::to_string(length_mm / 2);
    const std::string text =
        "format = 1\nname = \"n\"\n[planform]\nrectangle_mm = [" + std::to_string(length_mm) +
        ", " + std::to_string(width_mm) +
        "]\nrunning_length_mm = " + std::to_string(0.8 * length_mm) +
        "\n[core]\ninterpolation = \"linear\"\nthickness_mm = [[-" + half + ", 8], [" + half +
        ", 8]]\nstrips = [{ material = \"c\", width_mm = 12 }]\n"
        "[[layer]]\nname = \"lo\"\nmaterial = \"s\"\nthickness_mm = 0.6\n"
        "[[layer]]\nname = \"core\"\ncore = true\n"
        "[[layer]]\nname = \"up\"\nmaterial = \"s\"\nthickness_mm = 0.6\n"
        "[material.c]\nE_GPa = " +
        std::to_string(core_MPa / 1000) +
        "\nnu = 0.3\ndensity_kgm3 = 100\n[material.s]\nE_GPa = 25\nnu = 0.3\ndensity_kgm3 = 1900\n";
    return read_board_text({text, "n.toml", "."}, load_material_library());
}

std::vector<NamedQuantity> frequencies(const Board& board, int degree) {
    StudyOptions options;
    options.cases = {"free-modes"};
    options.degree = degree;
    return run_study(board, options).cases.front().numbers;
}

} // namespace

TEST_CASE("bars of frequencies hold for cores from 1 MPa on, strips as short as a coupon's") {
    for (const double length : {200., 300., 600.}) {
        for (const double core : {1., 3., 10., 100.}) { // faces: 25 GPa
            const Board board = sandwich(length, length / 7.5, core);
            const auto shown = frequencies(board, 0);
            const auto truth = frequencies(board, 6);
            for (std::size_t k = 0; k < shown.size(); ++k) {
                const Quantity& number = shown[k].quantity;
                CAPTURE(length, core, shown[k].name, number.value, truth[k].quantity.value);
                CHECK(number.error < 0.2 * number.value); // a bar, not a way out
                CHECK(std::abs(number.value - truth[k].quantity.value) <=
                      number.error + truth[k].quantity.error);
            }
        }
    }
}
