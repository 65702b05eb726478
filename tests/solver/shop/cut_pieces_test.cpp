// The papers' geometry and weights against `vrid check` and against closed forms.
#include <algorithm>
#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "io/materials/tolerances.hpp"
#include "solver/design/scatter.hpp"
#include "solver/response/mass.hpp"
#include "solver/shop/core_blank.hpp"
#include "solver/shop/cut_pieces.hpp"
#include "solver/shop/lay_up_weights.hpp"
#include "tests/io/demo_board.hpp"
#include "tests/places.hpp"
#include "tests/random_board.hpp"

using namespace vrid;

namespace {

std::map<std::string, double> by_material(const std::vector<LayUpStep>& steps) {
    std::map<std::string, double> all;
    for (const LayUpStep& step : steps) {
        for (const auto& [material, mass] : step.masses) {
            all[material] += mass;
        }
    }
    return all;
}

// `share`: how far the mass of `vrid check` may be off, of the whole.
void check_masses(const Board& board, double share) {
    const MassReport report = board_mass(board);
    const std::vector<BoardPart> parts = board_parts(board);
    const std::vector<LayUpStep> steps = lay_up_steps(board, parts);
    CHECK(steps.back().sum == Approx(report.mass).epsilon(share));
    const auto found = by_material(steps);
    double pieces = 0;
    for (const MassItem& item : report.by_material) {
        CAPTURE(item.name, item.mass);
        CHECK(std::abs(found.at(item.name) - item.mass) < share * report.mass);
    }
    for (const CutPiece& piece : cut_pieces(board, parts)) {
        pieces += piece.dry_mass + piece.resin_mass;
    }
    double rest = 0; // what is no piece
    for (const BoardPart& part : parts) {
        for (const auto& [material, mass] : part_masses(board, part)) {
            rest += part.of == PartKind::edge || part.of == PartKind::flange ? mass : 0.0;
        }
    }
    for (const LayUpStep& step : steps) {
        rest += step.name == "glue lines" || step.name == "inserts" ? step.mass : 0.0;
    }
    CHECK(pieces + rest == Approx(steps.back().sum).epsilon(1e-9));
}

const CutPiece& piece_of(const std::vector<CutPiece>& pieces, const std::string& layer,
                         bool mirror) {
    for (const CutPiece& piece : pieces) {
        if (piece.layer == layer && piece.mirror_image == mirror) {
            return piece;
        }
    }
    throw std::runtime_error("no piece of " + layer);
}

} // namespace

TEST_CASE("the steps of the lay-up sum to the mass of vrid check to 1e-6, material by material: a "
          "board with every table") {
    check_masses(tests::demo(), 1e-6);
}

TEST_CASE("and so they do on every example board") {
    for (const char* name : {"nh-154-kieselbach", "nh-157-biax", "nh-157-querwind",
                             "nh-161-lattenzaun", "coupon-torsion", "coupon-sandwich"}) {
        CAPTURE(name);
        check_masses(read_board(std::string(source_dir) + "/examples/" + name + "/board.toml",
                                load_material_library()),
                     1e-6);
    }
}

// mass.hpp promises 1e-4 of its strips of stations. With panels of 2 mm and eight points instead of
// 40 mm and three, 604 of 608 such numbers agreed with these polygons to 1e-6 and all to 2e-6.
TEST_CASE(
    "so they do within what check's own strips are good for on random boards: ribbons, patches, "
    "bands, mirror images, spacers, sidewalls, smeared and resolved strips") {
    const MaterialLibrary library = load_material_library();
    for (unsigned seed = 0; seed < 12; ++seed) {
        Board board = tests::random_board(seed, library);
        CAPTURE(seed);
        check_masses(board, 1e-4);
        if (board.core) {
            board.core->resolve = !board.core->resolve;
            check_masses(board, 1e-4);
        }
    }
}

TEST_CASE("a ribbon across the board is a rectangle along its roll, its mirror image the other way "
          "round") {
    const std::vector<CutPiece> pieces = cut_pieces(tests::demo(), board_parts(tests::demo()));
    const CutPiece& left = piece_of(pieces, "ribbon", false);
    const CutPiece& right = piece_of(pieces, "ribbon", true);
    // 1000 mm x 30 mm by the file's zone; its roll at 5 degrees takes the turned rectangle's
    // extents
    const double angle = 5 * std::numbers::pi / 180;
    CHECK(left.area == Approx(1.0 * 0.03).epsilon(1e-7));
    CHECK(left.roll_angle == Approx(angle));
    CHECK(left.length == Approx(std::cos(angle) + 0.03 * std::sin(angle)).epsilon(1e-7));
    CHECK(left.width == Approx(std::sin(angle) + 0.03 * std::cos(angle)).epsilon(1e-7));
    CHECK(right.roll_angle == Approx(-angle));
    CHECK(right.area == Approx(left.area).epsilon(1e-9));
    CHECK(extent(right.shape).y[1] == Approx(-extent(left.shape).y[0]));
    const CutPiece& patch = piece_of(pieces, "nose patch", false);
    CHECK(patch.area == Approx(0.39 * 0.05).epsilon(1e-7));
    CHECK(patch.dry_mass == Approx(0.39 * 0.05 * 0.3).epsilon(1e-7));
}

TEST_CASE(
    "ribbons of one layer that run in different directions are pieces of their own, each along "
    "its roll, and weigh twice where they cross, let into the core or not") {
    Board board = tests::demo();
    Layer* const ribbon = &*std::ranges::find(board.layers, "ribbon", &Layer::name);
    ribbon->mirror = false;
    ribbon->zone = {};
    ribbon->zone.ribbon = Ribbon{{-0.4, -0.06}, {0.4, 0.06}, 0.03};
    Zone other;
    other.ribbon = Ribbon{{-0.4, 0.06}, {0.4, -0.06}, 0.03};
    ribbon->more_zones = {other};
    const double turn = std::atan2(0.12, 0.8);
    const double length = std::hypot(0.12, 0.8);
    std::vector<CutPiece> found = cut_pieces(board, board_parts(board));
    std::erase_if(found, [](const CutPiece& piece) { return piece.layer != "ribbon"; });
    REQUIRE(found.size() == 2);
    for (int i = 0; i < 2; ++i) {
        const CutPiece& piece = found[static_cast<std::size_t>(i)];
        CHECK(piece.roll_angle == Approx(ribbon->angle + (i == 0 ? turn : -turn)));
        CHECK(piece.area == Approx(length * 0.03).epsilon(1e-7));
    }
    check_masses(board, 1e-4);
    ribbon->inlay = true;
    check_masses(board, 1e-4);
}

TEST_CASE("a disc with a band along its outline: areas of circles, an edge of a circle's length") {
    Board board = tests::demo();
    constexpr double pi = std::numbers::pi;
    board.planform.outline.clear();
    for (int i = 0; i < 4; ++i) {
        OutlinePiece arc;
        arc.radius = 0.2;
        arc.angle_from = i * pi / 2;
        arc.angle_to = (i + 1) * pi / 2;
        board.planform.outline.push_back(arc);
    }
    board.planform.running_length = 0.3;
    board.edge->x.reset();
    board.layers[1].zone.outline = Range{0.01, 0.035};
    const std::vector<BoardPart> parts = board_parts(board);
    const std::vector<CutPiece> pieces = cut_pieces(board, parts);
    const CutPiece& ring = piece_of(pieces, "lower glass", false);
    CHECK(ring.area == Approx(pi * (0.19 * 0.19 - 0.165 * 0.165)).epsilon(1e-6));
    CHECK(ring.shape.loops.size() == 2);
    CHECK(ring.length == Approx(0.38).epsilon(1e-6));
    const CutPiece& base = piece_of(pieces, "base", false);
    CHECK(base.area == Approx(pi * 0.198 * 0.198).epsilon(1e-6));
    const std::vector<EdgeRun> edges = edge_runs(board);
    REQUIRE(edges.size() == 1);
    CHECK(edges[0].length == Approx(2 * pi * 0.2).epsilon(1e-6));
    CHECK(edges[0].turn == Approx(2 * pi).epsilon(1e-6));
    CHECK(edges[0].tightest == Approx(0.2).epsilon(1e-9));
    CHECK(edges[0].corners == 0);
}

TEST_CASE("a rectangle has an edge of its perimeter with four corners, or of two straight runs") {
    Board board = tests::demo();
    board.planform = rectangle_planform(1, 0.2);
    board.edge->x.reset();
    const std::vector<EdgeRun> closed = edge_runs(board);
    REQUIRE(closed.size() == 1);
    CHECK(closed[0].length == Approx(2.4));
    CHECK(closed[0].corners == 4);
    board.edge->x = Range{-0.4, 0.3};
    const std::vector<EdgeRun> sides = edge_runs(board);
    REQUIRE(sides.size() == 2);
    for (const EdgeRun& side : sides) {
        CHECK(side.length == Approx(0.7));
        CHECK(side.corners == 0);
        CHECK(std::isinf(side.tightest));
    }
}

TEST_CASE("the spread of the last step is what vrid scatter says of the mass, widths included") {
    Board board = tests::demo();
    board.tolerance["planform.waist_width_mm"] = {2, false, ""}; // more than all else together
    board.tolerance["layer.nose patch.zone.x_mm[0]"] = {20, false, ""};
    const std::vector<Tolerance> tolerances = tolerances_of(board, tests::shipped_library());
    const std::vector<BoardPart> parts = board_parts(board);
    std::vector<LayUpStep> steps = lay_up_steps(board, parts);
    add_spread(steps, board, parts, tolerances);
    Session session(board, {}, {});
    NumberId mass;
    mass.kind = NumberId::Kind::mass;
    const Scatter scatter = first_order_scatter(session, {mass}, {{}}, tolerances);
    CHECK(steps.back().spread == Approx(scatter.numbers[0].sd).epsilon(1e-4));
    for (std::size_t i = 1; i < steps.size(); ++i) {
        CHECK(steps[i].spread > 0);
    }
}

TEST_CASE("a core's sanding table runs from end to end of the blank and holds every station") {
    const Board& board = tests::demo();
    const auto core = core_blank(board, board_parts(board), 0.01);
    REQUIRE(core);
    CHECK(core->size.x[0] == Approx(-0.66)); // between the tip spacers
    CHECK(core->size.x[1] == Approx(0.665));
    CHECK(core->sanding.front().from_end == 0);
    CHECK(core->sanding.back().x == Approx(0.665));
    int stations = 0;
    for (const SandingRow& row : core->sanding) {
        stations += row.station ? 1 : 0;
        CHECK(row.from_end == Approx(row.x - core->size.x[0]).margin(1e-12));
    }
    CHECK(stations == 5); // the outer two lie in the spacers
    CHECK(core->thickest == Approx(7.1e-3));
    // strips of 36 and 18 mm from the middle, to both sides
    REQUIRE(core->strips.size() == 2);
    CHECK(core->strips[0].material == "poplar");
    CHECK(core->strips[0].count == 2 * 3); // |y| from 0, 54 and 108 mm: the blank is 275 mm wide
    CHECK(core->strips[1].fill == "poplar");
}

TEST_CASE("pieces side by side on the roll: rows as long as their longest, too wide ones joined") {
    Board board = tests::demo();
    board.planform = rectangle_planform(1, 0.25);
    board.edge.reset();
    board.fabrics.at("triax-740").roll_width = 0.6;
    board.fabrics.at("carbon-ud-300").roll_width = 0.02;
    std::vector<CutPiece> pieces = cut_pieces(board, board_parts(board));
    std::vector<RollUse> rolls = roll_uses(board, pieces, 1);
    REQUIRE(rolls.size() == 2);
    CHECK(rolls[0].fabric == "triax-740"); // two of 1 m x 0.25 m side by side
    CHECK(rolls[0].length == Approx(1.0));
    CHECK(rolls[0].waste == Approx(1 - 0.5 / 0.6));
    CHECK(rolls[0].joined == 0);
    CHECK(rolls[1].joined == 3);         // two ribbons and a patch
    rolls = roll_uses(board, pieces, 3); // six pieces, three rows
    CHECK(rolls[0].length == Approx(3.0));
    CHECK(rolls[0].area == Approx(1.5));
}
