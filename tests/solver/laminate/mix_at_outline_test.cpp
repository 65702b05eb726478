#include "solver/laminate/mix_at_outline.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/laminate/strip_mix.hpp"

using namespace vrid;

namespace {

// A core of strips 60, 50 and 90 mm from the middle, on a board that widens to its nose.
Board widening(double nose, bool own_right) {
    Board board;
    board.planform =
        polygon_planform({{-0.5, -0.07}, {0.5, -0.05 - nose}, {0.5, 0.05 + nose}, {-0.5, 0.08}}, 1);
    board.core =
        Core{{Interpolation::linear, {0}, {8e-3}},
             {{"a", 0.06, {}, ""}, {"b", 0.05, Range{-0.2, 0.6}, "c"}, {"d", 0.09, {}, ""}},
             {},
             std::nullopt,
             false};
    if (own_right) {
        board.core->strips_right = {{"e", 0.08, {}, ""}, {"f", 0.2, {}, ""}};
    }
    return board;
}

// Areas of strips by stretch, as the mix has them.
std::vector<StripAreas> areas_of(const Board& board) {
    const Core& core = *board.core;
    if (core.strips_right.empty()) {
        return {strip_areas(board, core.strips, {1, -1})};
    }
    return {strip_areas(board, core.strips, {1}), strip_areas(board, core.strips_right, {-1})};
}

} // namespace

// By difference: both long sides move outwards along their normals by a share of a metre.
TEST_CASE("what the mix's borders say is what the areas do when the outline moves") {
    for (const bool own_right : {false, true}) {
        for (const bool wall : {false, true}) {
            Board board = widening(0.2, own_right); // slopes of 0.18 and 0.17
            if (wall) {
                board.sidewall = Sidewall{"abs", 0.01, Range{-0.3, 0.35}};
            }
            const auto moved = [&](double by) { // each side to its left, its ends at their stations
                Board other = board;
                std::vector<Eigen::Vector2d> corners;
                const double right = std::hypot(1, 0.18), left = std::hypot(1, 0.17);
                other.planform = polygon_planform({{-0.5, -0.07 - by * right},
                                                   {0.5, -0.25 - by * right},
                                                   {0.5, 0.25 + by * left},
                                                   {-0.5, 0.08 + by * left}},
                                                  1);
                return areas_of(other);
            };
            constexpr double h = 1e-6;
            const auto high = moved(h), low = moved(-h);
            const auto found = core_mix_at_outline(board);
            REQUIRE(found.size() == (own_right ? 2 : 1));
            for (std::size_t half = 0; half < found.size(); ++half) {
                const auto& share = high[half].mix.share;
                std::vector<std::vector<double>> sum(share.size(),
                                                     std::vector<double>(share[0].size(), 0.0));
                for (const MixBorder& border : found[half].border) {
                    const double x = point_at(board.planform, border.place).x();
                    if (std::abs(x) < 0.5 - 1e-9) { // the blunt ends stay where they are
                        sum[border.stretch][border.strip] += border.by;
                    }
                }
                for (std::size_t s = 0; s < share.size(); ++s) {
                    CHECK(found[half].area[s] ==
                          Approx((high[half].all[s] + low[half].all[s]) / 2).epsilon(1e-6));
                    for (std::size_t i = 0; i < share[s].size(); ++i) {
                        const double slope = (share[s][i] - low[half].mix.share[s][i]) / (2 * h);
                        CAPTURE(own_right, wall, half, s, i);
                        CHECK(sum[s][i] == Approx(slope).margin(5e-3)); // a station's length
                    }
                }
            }
        }
    }
}

TEST_CASE("a pattern that repeats does not feel the outline") {
    Board board = widening(0.07, false);
    board.core->strips = {{"a", 0.02, {}, ""}, {"b", 0.01, {}, ""}};
    REQUIRE(core_mix_at_outline(board).size() == 1);
    CHECK(core_mix_at_outline(board)[0].border.empty());
}

TEST_CASE("a blunt end adds the strips that end there, each by its width") {
    const Board board = widening(0.07, false);
    std::vector<double> nose(3, 0.0), tail(3, 0.0);
    const auto mix = core_mix_at_outline(board);
    for (const MixBorder& border : mix[0].border) {
        const double x = point_at(board.planform, border.place).x();
        if (x > 0.5 - 1e-9) {
            nose[border.strip] += border.by;
        } else if (x < -0.5 + 1e-9) {
            tail[border.strip] += border.by;
        }
    }
    // 0.12 on both sides: 60, 50 and 10 mm; 0.08 and 0.07 at the tail: 60, and 20 and 10
    for (const auto& [found, wanted] : {std::pair(nose[0], 0.12),
                                        {nose[1], 0.1},
                                        {nose[2], 0.02},
                                        {tail[0], 0.12},
                                        {tail[1], 0.03},
                                        {tail[2], 0.0}}) {
        CHECK(found == Approx(wanted).margin(2e-3)); // of half a station's length, slopes of 0.05
    }
}
