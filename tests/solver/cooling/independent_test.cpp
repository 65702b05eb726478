// Boards out of the press against an independent program, benchmarks/independent/press_plates.py: a
// plate of first order in plain displacements, five fields of degree 10 on quads that follow the
// outline exactly, own laminate code; its values below, and what separates them, in
// benchmarks/independent/press.md. Its board files stand beside it in press_boards.
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <string>

#include <catch2/catch.hpp>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "solver/study.hpp"
#include "tests/places.hpp"

namespace {

using namespace vrid;

struct Shape {
    double camber, camber_edge, concavity, twist; // mm, degrees
};

// In mm or degrees; concavity at x = 0.
double found(const CaseResult& result, const std::string& name) {
    for (const NamedQuantity& one : result.numbers) {
        if (one.name == name && one.station.value_or(0) == 0) {
            const bool turn = one.quantity.unit == Unit::angle;
            return one.quantity.value * (turn ? 180 / std::numbers::pi : 1e3);
        }
    }
    FAIL("no number " << name);
    return 0;
}

Board board_at(const std::string& name) {
    return read_board(std::string(source_dir) + "/benchmarks/independent/press_boards/" + name +
                          ".toml",
                      load_material_library());
}

StudyResult cooled_down(const Board& board) {
    StudyOptions options;
    options.cases = {"release", "cold"};
    return run_study(board, options);
}

} // namespace

TEST_CASE("Boards out of the press have the shape that an independent program finds, to 0.5 %") {
    const std::map<std::string, std::array<Shape, 2>> boards{
        // an unsymmetric biax on a core that tapers both ways
        {"plank",
         {Shape{1.553675, 1.634731, 0.122274, 1.063189},
          Shape{3.979372, 4.190635, 0.328764, 1.443550}}},
        // a waist that is not in the middle, plies at 31 and 67 degrees
        {"waisted",
         {Shape{-6.620236, -5.261011, 1.164088, 0.831436},
          Shape{-8.471660, -6.183359, 1.884305, 1.643887}}},
        // a carbon patch on the left of the nose
        {"patched",
         {Shape{4.305681, 4.609060, 1.299852, 3.980618},
          Shape{9.557409, 9.999837, 3.391086, 5.348156}}}};
    for (const auto& [name, shapes] : boards) {
        const StudyResult study = cooled_down(board_at(name));
        for (std::size_t i = 0; i < shapes.size(); ++i) {
            CAPTURE(name, study.cases[i].name);
            const CaseResult& one = study.cases[i];
            CHECK(found(one, "camber") == Approx(shapes[i].camber).epsilon(5e-3));
            CHECK(found(one, "camber_edge") == Approx(shapes[i].camber_edge).epsilon(5e-3));
            CHECK(found(one, "concavity") == Approx(shapes[i].concavity).epsilon(5e-3));
            CHECK(found(one, "twist") == Approx(shapes[i].twist).epsilon(5e-3));
        }
    }
}

TEST_CASE("The parts by layer add up where the core's thickness changes across the board too") {
    // the sum is that of whole sections, the parts are gone through ply by ply
    Board board = board_at("plank");
    board.core->cross =
        Profile{Interpolation::linear, {-0.1, 0.02, 0.1}, {-1.1e-3, 0.4e-3, 0.7e-3}};
    const StudyResult study = cooled_down(board);
    for (const CaseResult& result : study.cases) {
        ShapePart sum;
        for (const ShapePart& part : result.cooled->by_layer) {
            sum.camber += 1e3 * part.camber;
            sum.concavity += 1e3 * part.concavity;
            sum.twist += 180 / std::numbers::pi * part.twist;
        }
        CHECK(sum.camber == Approx(found(result, "camber")).epsilon(1e-8));
        CHECK(sum.concavity == Approx(found(result, "concavity")).epsilon(1e-8));
        CHECK(sum.twist == Approx(found(result, "twist")).epsilon(1e-7));
        CHECK(result.cooled->largest_reaction < 1e-9);
    }
    CHECK(found(study.cases[0], "twist") != Approx(1.063189).epsilon(0.01));
}
