#include "mesh/mesh_lines.hpp"

#include <functional>

#include <catch2/catch.hpp>

#include "tests/mesh/reference_board.hpp"

using namespace vrid;

namespace {

Board board_with_all() {
    Board board = reference_board();
    board.core->strips = {{"wood", 0.02, Range{-0.4, 0.4}, "wood"}};
    board.core->strips_right = {{"wood", 0.02, {}, ""}};
    board.core->cross = Profile{Interpolation::linear, {-0.1, 0.1}, {0, 0}};
    Layer& layer = board.layers.emplace_back();
    layer.zone = {Range{-0.3, 0.3},
                  Range{0.01, 0.1},
                  Ribbon{{0, 0.05}, {0.2, 0.05}, 0.03},
                  Range{0.01, 0.02},
                  {{0, 0}, {0.1, 0}, {0.1, 0.05}}};
    layer.more_zones = {{Range{0.4, 0.5}, {}, {}, {}, {}}};
    board.sidewall->x = Range{-0.5, 0.5};
    board.tip_spacer = TipSpacer{"abs", {-0.7, 0.7}};
    board.rest_shape = Profile{Interpolation::smooth, {-0.7, 0, 0.7}, {0, 0, 0}};
    return board;
}

using Change = std::function<void(Board&)>;

bool lines_stay(const Change& change) {
    Board board = board_with_all();
    change(board);
    return mesh_lines(board) == mesh_lines(board_with_all());
}

} // namespace

TEST_CASE("two boards have the same mesh lines exactly when nothing that moves one differs") {
    const auto zone = [](Board& b) -> Zone& { return b.layers[1].zone; };
    const std::vector<Change> moving{
        [](Board& b) { b.planform.outline[2].control[1].x() += 1e-6; },
        [](Board& b) { b.planform.outline[0].corner_at_start ^= true; },
        [](Board& b) { b.planform.running_length += 1e-6; },
        [](Board& b) {
            b.planform.edge_contact[1] = {-0.5, 0.5};
        },
        [](Board& b) { b.layers[0].mirror = false; },
        [&](Board& b) { (*zone(b).x)[0] += 1e-6; },
        [&](Board& b) { (*zone(b).y)[1] += 1e-6; },
        [&](Board& b) { zone(b).y.reset(); },
        [&](Board& b) { zone(b).ribbon->from.y() += 1e-6; },
        [&](Board& b) { zone(b).ribbon->to.x() += 1e-6; },
        [&](Board& b) { zone(b).ribbon->width += 1e-6; },
        [&](Board& b) { (*zone(b).outline)[1] += 1e-6; },
        [&](Board& b) { zone(b).polygon[2].y() += 1e-6; },
        [&](Board& b) { zone(b).polygon.pop_back(); },
        [](Board& b) { (*b.layers[1].more_zones[0].x)[0] += 1e-6; },
        [](Board& b) { b.layers.pop_back(); },
        [](Board& b) { b.core.reset(); },
        [](Board& b) { b.core->thickness.x[3] += 1e-6; },
        [](Board& b) { b.core->thickness.interpolation = Interpolation::linear; },
        [](Board& b) { b.core->strips[0].width += 1e-6; },
        [](Board& b) { (*b.core->strips[0].x)[1] += 1e-6; },
        [](Board& b) { b.core->strips_right[0].width += 1e-6; },
        [](Board& b) { b.core->cross->x[0] += 1e-6; },
        [](Board& b) { b.core->resolve = true; },
        [](Board& b) { b.tip_spacer->x[0] += 1e-6; },
        [](Board& b) { b.edge->width += 1e-6; },
        [](Board& b) { (*b.edge->x)[0] += 1e-6; },
        [](Board& b) { b.edge->flange->width += 1e-6; },
        [](Board& b) { b.edge->flange.reset(); },
        [](Board& b) { b.sidewall->width += 1e-6; },
        [](Board& b) { (*b.sidewall->x)[1] += 1e-6; },
        [](Board& b) { b.stance->width += 1e-6; },
        [](Board& b) { b.stance->setback += 1e-6; },
        [](Board& b) { b.stance->foot_length += 1e-6; },
        [](Board& b) { b.stance->foot_width += 1e-6; },
        [](Board& b) { b.rest_shape->x[1] += 1e-6; },
    };
    for (std::size_t k = 0; k < moving.size(); ++k) {
        CAPTURE(k);
        CHECK_FALSE(lines_stay(moving[k]));
    }
    const std::vector<Change> staying{
        [](Board&) {},
        [](Board& b) { b.core->thickness.value[3] += 1e-3; },
        [](Board& b) { b.core->cross->value[0] += 1e-3; },
        [](Board& b) { b.core->strips[0].material = "ash"; },
        [](Board& b) { b.layers[0].angle += 0.1; },
        [](Board& b) { b.layers[0].thickness += 1e-3; },
        [](Board& b) { b.edge->flange->thickness += 1e-4; },
        [](Board& b) { b.edge->flange->fill = 0.3; },
        [](Board& b) { b.rest_shape->value[1] += 1e-3; },
        [](Board& b) { b.mass_only.resin += 0.1; },
        [](Board& b) { b.name = "other"; },
    };
    for (std::size_t k = 0; k < staying.size(); ++k) {
        CAPTURE(k);
        CHECK(lines_stay(staying[k]));
    }
}

TEST_CASE("a range on one part is not taken for that of the next") {
    Board one = board_with_all(), other = one;
    one.edge->x.reset();
    one.sidewall->x = Range{-0.6, 0.6};
    other.edge->x = Range{-0.6, 0.6};
    other.sidewall->x.reset();
    CHECK(mesh_lines(one) != mesh_lines(other));
}
