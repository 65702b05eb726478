#include "mesh/lines.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Vector2d;

namespace {

// 1.6 m by 0.3 m, contact stations at +- 0.6 m, nothing on it.
Board bare_board() {
    Board board;
    board.planform =
        polygon_planform({{-0.8, -0.15}, {0.8, -0.15}, {0.8, 0.15}, {-0.8, 0.15}}, 1.2);
    return board;
}

Board with_zone(const Zone& zone, bool mirror = false) {
    Board board = bare_board();
    Layer& layer = board.layers.emplace_back();
    layer.name = "patch";
    layer.zone = zone;
    layer.mirror = mirror;
    return board;
}

MeshLines lines_for(const Board& board, const MeshOptions& options = {}) {
    return collect_lines(board, options);
}

// Places of the upright lines of a rank, or of the level ones, rising.
std::vector<double> uprights(const MeshLines& lines, Rank rank) {
    std::vector<double> x;
    for (const StraightLine& line : lines.straight) {
        if (line.a.x() == line.b.x() && line.rank == rank) {
            x.push_back(line.a.x());
        }
    }
    return x;
}
std::vector<StraightLine> others(const MeshLines& lines, Rank rank = Rank::zone) {
    std::vector<StraightLine> found;
    for (const StraightLine& line : lines.straight) {
        if (line.a.x() != line.b.x() && line.rank == rank) {
            found.push_back(line);
        }
    }
    return found;
}

using Places = std::vector<double>;

} // namespace

TEST_CASE("a bare board has its contact stations, its axis and its ends") {
    const MeshLines lines = lines_for(bare_board());
    CHECK(uprights(lines, Rank::wanted_station) == Places{-0.6, 0.6});
    REQUIRE(others(lines, Rank::axis).size() == 1);
    CHECK(others(lines, Rank::axis)[0].a.y() == 0);
    CHECK(lines.straight.size() == 3);
    CHECK(lines.parallels.empty());
    CHECK(lines.stations == Places{-0.6, 0.6});
    CHECK(lines.symmetric);
    // a station on an end of the board is its side
    MeshOptions options;
    options.stations = {-0.8, 0.3, 0.9};
    CHECK(lines_for(bare_board(), options).stations == Places{-0.8, -0.6, 0.3, 0.6});
    CHECK(uprights(lines_for(bare_board(), options), Rank::wanted_station) ==
          Places{-0.6, 0.3, 0.6});
}

TEST_CASE("lines within 0.05 mm are one, of the higher rank; soft ones go within 3 mm of another") {
    Board board = bare_board();
    board.core = Core{{Interpolation::smooth, {-0.2, 0.1, 0.3, 0.5971, 0.6029}, {1, 1, 1, 1, 1}},
                      {},
                      {},
                      std::nullopt,
                      false};
    MeshOptions options;
    options.stations = {0.1 + 4e-5, 0.3 + 2.9e-3, -0.2 - 3.1e-3};
    const MeshLines smooth = lines_for(board, options);
    CHECK(uprights(smooth, Rank::smooth) == Places{-0.2});
    CHECK(uprights(smooth, Rank::wanted_station) ==
          Places{-0.6, -0.2 - 3.1e-3, 0.1 + 4e-5, 0.3 + 2.9e-3, 0.6});
    board.core->thickness.interpolation = Interpolation::linear; // the section's slope jumps
    CHECK(uprights(lines_for(board, options), Rank::station) == Places{-0.2, 0.3, 0.5971, 0.6029});
}

TEST_CASE("a zone gives a line for each of its borders, on both sides if it is mirrored") {
    const Zone patch{Range{-0.2, 0.1}, Range{0.02, 0.08}, {}, {}, {}};
    const MeshLines one = lines_for(with_zone(patch));
    CHECK(uprights(one, Rank::station) == Places{-0.2, 0.1});
    REQUIRE(others(one).size() == 2);
    CHECK(others(one)[0].a == Vector2d(-0.2, 0.02));
    CHECK(others(one)[0].b == Vector2d(0.1, 0.02));
    CHECK(others(one)[1].a.y() == 0.08);
    CHECK_FALSE(one.symmetric);
    const MeshLines both = lines_for(with_zone(patch, true));
    CHECK(others(both).size() == 4);
    CHECK(others(both)[0].a.y() == -0.08);
    CHECK(both.symmetric);
    CHECK(others(lines_for(with_zone({{}, Range{0.1, 0.2}, {}, {}, {}}))).size() == 1); // off it
    const MeshLines band = lines_for(with_zone({{}, {}, {}, Range{0, 0.03}, {}}));
    REQUIRE(band.parallels.size() == 1);
    CHECK(band.parallels[0].distance == 0.03);
}

TEST_CASE("borders of two zones within 0.05 mm are one line, each over its own length") {
    Board board = with_zone({Range{-0.2, 0.1}, Range{0.02, 0.08}, {}, {}, {}});
    Layer& other = board.layers.emplace_back();
    other.name = "other";
    other.zone = {Range{0, 0.3}, Range{0.02 + 4e-5, 0.09}, {}, {}, {}};
    int there = 0;
    for (const StraightLine& line : others(lines_for(board))) {
        CHECK((line.a.y() == 0.02 || line.a.y() > 0.07));
        there += line.a.y() == 0.02 ? 1 : 0;
    }
    CHECK(there == 2);
}

TEST_CASE("a ribbon gives its sides and ends, cut where its zone ends") {
    // 3-4-5: half a width of 0.01 is (0.008, -0.006)
    const Zone zone{{}, {}, Ribbon{{0, 0}, {0.06, 0.08}, 0.02}, {}, {}};
    const auto ends = [](const std::vector<StraightLine>& lines) {
        std::vector<Vector2d> all;
        for (const StraightLine& line : lines) {
            all.insert(all.end(), {line.a, line.b});
        }
        return all;
    };
    const auto has = [](const std::vector<Vector2d>& all, double x, double y) {
        return std::count_if(all.begin(), all.end(), [&](const Vector2d& p) {
            return (p - Vector2d(x, y)).norm() < 1e-12;
        });
    };
    const auto all = ends(others(lines_for(with_zone(zone))));
    REQUIRE(all.size() == 8);
    for (const auto& [x, y] :
         {std::pair(-0.008, 0.006), {0.008, -0.006}, {0.052, 0.086}, {0.068, 0.074}}) {
        CHECK(has(all, x, y) == 2);
    }
    const auto mirrored = ends(others(lines_for(with_zone(zone, true))));
    CHECK(mirrored.size() == 16);
    CHECK(has(mirrored, 0.068, -0.074) == 2);
    Zone cut = zone;
    cut.x = Range{0.022, 0.04}; // sides from 0.022 to 0.04, no end within
    const auto inside = ends(others(lines_for(with_zone(cut))));
    REQUIRE(inside.size() == 4);
    for (const Vector2d& p : inside) {
        CHECK((p.x() == Approx(0.022) || p.x() == Approx(0.04)));
        CHECK(std::abs((p - Vector2d(0, 0)).dot(Vector2d(-0.8, 0.6))) == Approx(0.01));
    }
    cut.x.reset();
    cut.y = Range{0.03, 0.04};
    const auto lower = ends(others(lines_for(with_zone(cut, true))));
    CHECK(std::count_if(lower.begin(), lower.end(), [](const Vector2d& p) {
              return std::abs(std::abs(p.y()) - 0.04) < 1e-12 && std::abs(p.x()) < 0.1;
          }) == 4); // its two sides, mirrored
    // along the board: two level lines between two stations
    const MeshLines level =
        lines_for(with_zone({{}, {}, Ribbon{{0.3, 0.05}, {-0.1, 0.05}, 0.02}, {}, {}}));
    CHECK(uprights(level, Rank::station) == Places{-0.1, 0.3});
    REQUIRE(others(level).size() == 2);
    CHECK(others(level)[0].a.y() == Approx(0.04));
    CHECK(others(level)[0].a.x() == -0.1);
    CHECK(others(level)[1].b.y() == Approx(0.06));
    CHECK(others(level)[1].b.x() == 0.3);
}

TEST_CASE("a polygon gives its sides: upright ones stations, level ones lines of their length") {
    const MeshLines lines =
        lines_for(with_zone({{}, {}, {}, {}, {{0, 0.02}, {0.2, 0.02}, {0.2, 0.06}, {0.05, 0.09}}}));
    CHECK(uprights(lines, Rank::station) == Places{0.2});
    REQUIRE(others(lines).size() == 3);
    CHECK(others(lines)[0].a == Vector2d(0, 0.02)); // level lines come first
    CHECK(others(lines)[0].b == Vector2d(0.2, 0.02));
    CHECK(others(lines)[1].a == Vector2d(0.2, 0.06));
    CHECK((others(lines)[1].b - Vector2d(0.05, 0.09)).norm() < 1e-15);
    CHECK((others(lines)[2].b - Vector2d(0, 0.02)).norm() < 1e-15);
}

TEST_CASE("edge, flange, sidewall, spacer and feet give their bands, stations and sides") {
    Board board = bare_board();
    board.edge = Edge{"steel", 0.002, Range{-0.5, 0.5}, Flange{0.006, 5e-4, 0.5}};
    board.sidewall = Sidewall{"abs", 0.01, Range{-0.4, 0.45}};
    board.tip_spacer = TipSpacer{"abs", {-0.7, 0.65}};
    board.stance = Stance{0.5, 0.02, 0.1, 0.12};
    MeshOptions options;
    options.outline_bands = {0.01 + 1e-4, 0.03};
    const MeshLines lines = lines_for(board, options);
    REQUIRE(lines.parallels.size() == 4); // of the wanted ones the first is near the sidewall's
    for (std::size_t k = 0; k < 4; ++k) {
        CHECK(lines.parallels[k].distance == Approx(std::array{0.002, 0.008, 0.01, 0.03}[k]));
        CHECK((lines.parallels[k].rank == Rank::wanted_band) == (k == 3));
    }
    CHECK(uprights(lines, Rank::station) == Places{-0.7, -0.5, -0.4, 0.45, 0.5, 0.65});
    const Places wanted{-0.6, -0.32, -0.22, 0.18, 0.28, 0.6};
    const Places found = uprights(lines, Rank::wanted_station);
    REQUIRE(found.size() == wanted.size());
    for (std::size_t k = 0; k < wanted.size(); ++k) {
        CHECK(found[k] == Approx(wanted[k]));
    }
    const auto feet = others(lines, Rank::foot);
    REQUIRE(feet.size() == 4);
    for (const StraightLine& side : feet) {
        CHECK(std::abs(side.a.y()) == 0.06);
        CHECK(side.b.x() - side.a.x() == Approx(0.1));
    }
}

TEST_CASE("resolved strips give a line at each border, by their own widths on either side") {
    Board board = bare_board();
    board.core = Core{{Interpolation::smooth, {0}, {1}},
                      {{"a", 0.04, {}, ""}, {"b", 0.02, {}, ""}},
                      {{"c", 0.05, {}, ""}},
                      std::nullopt,
                      true};
    Places y;
    for (const StraightLine& line : others(lines_for(board))) {
        y.push_back(line.a.y());
    }
    const Places wanted{-0.15, -0.1, -0.05, 0, 0.04, 0.06, 0.1, 0.12}; // the outermost is the side
    REQUIRE(y.size() == wanted.size());
    for (std::size_t k = 0; k < y.size(); ++k) {
        CHECK(y[k] == Approx(wanted[k]).margin(1e-12));
    }
    board.core->resolve = false; // smeared: only the halves meet
    CHECK(others(lines_for(board)).size() == 1);
    board.core->strips_right.clear();
    board.core->cross = Profile{Interpolation::linear, {-0.1, 0.05}, {0, 1e-3}};
    REQUIRE(others(lines_for(board)).size() == 2);
    CHECK(others(lines_for(board))[0].a.y() == -0.1);
}
