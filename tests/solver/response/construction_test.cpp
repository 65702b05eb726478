// What zones, inlays and cores that differ across the board do to mass and stiffness. Every number
// is a volume times a density, or a beam's second moment, worked out by hand.
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/laminate/stack.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/mass.hpp"
#include "tests/io/construction_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

constexpr double plan_area = 0.4 * 0.12;              // [m2]
constexpr double sheets = plan_area * 2e-3 * 2000;    // [kg]
constexpr double plain_core = plan_area * 8e-3 * 500; // [kg]
constexpr double rubber = 2e-3 * 1100;                // [kg/m2]
constexpr double exact = 1e-9;

double mass_of(const std::string& core, const std::string& below, const std::string& above = "") {
    return board_mass(read_text_board(construction_text(core, below, above))).mass;
}

double height(const Board& board, double x, double y) {
    return stack_at(board, {x, y}).back().z_top;
}

} // namespace

TEST_CASE("a polygon weighs its area, whichever way round its corners are, and its mirror image as "
          "much") {
    // a kite of 80 x 40 mm, half the product of its diagonals, and an L of 60 x 40 less 30 x 20
    const std::string kite = "zone = { polygon_mm = [[-90, 30], [-50, 10], [-10, 30], [-50, 50]] }";
    const std::string back = "zone = { polygon_mm = [[-50, 50], [-10, 30], [-50, 10], [-90, 30]] }";
    const std::string ell =
        "zone = { polygon_mm = [[10, 5], [70, 5], [70, 25], [40, 25], [40, 45], "
        "[10, 45]] }";
    const double kite_area = 0.08 * 0.04 / 2;
    CHECK(mass_of(plain_strips, rubber_layer(kite)) ==
          Approx(sheets + plain_core + rubber * kite_area).epsilon(exact));
    CHECK(mass_of(plain_strips, rubber_layer(back)) ==
          Approx(sheets + plain_core + rubber * kite_area).epsilon(exact));
    CHECK(mass_of(plain_strips, rubber_layer(kite + "\nmirror = true")) ==
          Approx(sheets + plain_core + 2 * rubber * kite_area).epsilon(exact));
    CHECK(mass_of(plain_strips, rubber_layer(ell)) ==
          Approx(sheets + plain_core + rubber * (0.06 * 0.04 - 0.03 * 0.02)).epsilon(exact));
}

TEST_CASE("zones of one layer lie once where they overlap, ribbons that cross twice") {
    const double both =
        mass_of(plain_strips, rubber_layer("zones = [{ x_mm = [-100, 20], y_mm = [-10, 30] }, "
                                           "{ x_mm = [0, 100], y_mm = [10, 50] }]"));
    CHECK(both == Approx(sheets + plain_core + rubber * (0.12 * 0.04 + 0.1 * 0.04 - 0.02 * 0.02))
                      .epsilon(exact));
    const std::string ribbons =
        "zones = [{ from_mm = [-50, -40], to_mm = [50, 40], width_mm = 10 }, "
        "{ from_mm = [-50, 40], to_mm = [50, -40], width_mm = 10 }]";
    const double length = std::hypot(0.1, 0.08);
    CHECK(mass_of(plain_strips, rubber_layer(ribbons)) ==
          Approx(sheets + plain_core + rubber * 2 * 0.01 * length).epsilon(1e-6));
    const Board crossed = read_text_board(construction_text(plain_strips, rubber_layer(ribbons)));
    CHECK(height(crossed, 1e-4, 0) == Approx(14e-3).epsilon(exact)); // two rubbers of 2 mm
    CHECK(height(crossed, 0.03, 0.024) == Approx(12e-3).epsilon(exact));
}

TEST_CASE("an inlaid layer takes its place from the core and the board keeps its height") {
    const std::string zone = "zone = { x_mm = [-60, 40], y_mm = [-25, 25] }\ninlay = true";
    const double gain = (1100.0 - 500.0) * 2e-3 * 0.1 * 0.05;
    for (const bool below : {true, false}) {
        const Board board = read_text_board(construction_text(
            plain_strips, below ? rubber_layer(zone) : "", below ? "" : rubber_layer(zone)));
        CHECK(board_mass(board).mass == Approx(sheets + plain_core + gain).epsilon(exact));
        const std::vector<StackItem> stack = stack_at(board, {0, 0});
        REQUIRE(stack.size() == 4);
        CHECK(stack.back().z_top == Approx(10e-3).epsilon(exact));
        CHECK(stack[below ? 1 : 2].name == "rubber");
        CHECK(stack[below ? 2 : 1].z_top - stack[below ? 2 : 1].z_bottom ==
              Approx(6e-3).epsilon(exact));
    }
}

TEST_CASE("unequal halves of the core weigh what lies in each, and pull the balance point over") {
    const std::string halves = "strips_left = [{ material = \"wood\", width_mm = 20 }]\n"
                               "strips_right = [{ material = \"other\", width_mm = 20 }, "
                               "{ material = \"wood\", width_mm = 10 }]\n";
    for (const bool resolve : {false, true}) {
        CAPTURE(resolve);
        const MassReport found = board_mass(
            read_text_board(construction_text(halves + (resolve ? "resolve = true\n" : ""), "")));
        const double right = (2 * 300.0 + 500.0) / 3; // smeared or cut: 60 mm are two periods
        const double core = plan_area / 2 * 8e-3 * (500 + right);
        CHECK(found.mass == Approx(sheets + core).epsilon(exact));
        double moment = plan_area / 2 * 8e-3 * 0.03 * (500 - right);
        if (resolve) { // 300 kg/m3 from 0 to 20 and 30 to 50 mm, 500 kg/m3 beside
            moment = 0.4 * 8e-3 *
                     (500 * 0.06 * 0.03 - 300 * (0.02 * 0.01 + 0.02 * 0.04) -
                      500 * (0.01 * 0.025 + 0.01 * 0.055));
        }
        CHECK(found.y == Approx(moment / found.mass).epsilon(1e-9));
    }
}

TEST_CASE("where a strip ends its fill goes on") {
    const std::string ends =
        "strips = [{ material = \"wood\", width_mm = 10 }, { material = \"wood\", "
        "width_mm = 10, x_mm = [-100, 100], fill = \"other\" }]\n";
    for (const bool resolve : {false, true}) {
        CAPTURE(resolve);
        CHECK(mass_of(ends + (resolve ? "resolve = true\n" : ""), "") ==
              Approx(sheets + plain_core - plan_area / 4 * 8e-3 * 200).epsilon(exact));
    }
}

TEST_CASE("a core bevelled on one side has the mass, balance and EI of its cross section") {
    // 8 mm up to y = 20 mm, then down to 4 mm at the left side, 60 mm
    const std::string bevel = plain_strips + "cross_mm = [[20, 0], [60, -4]]\n";
    std::string text = construction_text(bevel, "");
    const MassReport found = board_mass(read_text_board(text));
    const double missing = 0.4 * 0.04 * 2e-3 * 500; // a wedge, its centre at two thirds
    CHECK(found.mass == Approx(sheets + plain_core - missing).epsilon(exact));
    CHECK(found.y == Approx(-missing * (0.02 + 0.04 * 2 / 3) / found.mass).epsilon(1e-9));
    // without sheets: a beam of one material about its own axis, width by width
    for (const char* sheet : {"lower sheet", "upper sheet"}) {
        const auto at = text.find(std::string("[[layer]]\nname = \"") + sheet);
        text.erase(at, text.find("thickness_mm = 1\n", at) + 17 - at);
    }
    const CrossSection section = cross_section(read_text_board(text), 0);
    const double E = 10e9;
    const auto power = [](int n) { // integral of t^n over y
        double sum = 0.08 * std::pow(8e-3, n);
        constexpr int steps = 4000;
        for (int i = 0; i < steps; ++i) {
            sum += 0.04 / steps * std::pow(8e-3 - 4e-3 * (i + 0.5) / steps, n);
        }
        return sum;
    };
    const double bending = power(3) / 3 - power(2) * power(2) / 4 / power(1);
    CHECK(section.EI == Approx(E * bending).epsilon(3e-5)); // slices of 1 mm
    CHECK(section.core_thickness == Approx(8e-3).epsilon(exact));
    CHECK(section.width == Approx(0.12).epsilon(exact));
}
