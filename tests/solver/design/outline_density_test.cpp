// Where to add width: the sum of the density times a known move of the outline is the derivative by
// the value that moves it so.
#include <cmath>

#include <catch2/catch.hpp>

#include "io/materials/design_paths.hpp"
#include "io/write/number_name.hpp"
#include "mesh/board/outline_piece.hpp"
#include "solver/design/shape_change.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

// The normal part of the outline's move at the vertices, per unit of the value.
Eigen::VectorXd moves_by(const Board& board, const OutlineDensity& outline, const LineValue& line) {
    constexpr double step = 1e-6;
    const ShapeChange change = shape_change(board, line, step);
    const OutlineDistance distance(board.planform);
    Eigen::VectorXd moves(outline.length.size());
    for (Eigen::Index i = 0; i < moves.size(); ++i) {
        const OutlinePlace place = distance.nearest(outline.at.col(i));
        moves(i) = outline.outward.col(i).dot(point_at(change.above->planform, place) -
                                              point_at(change.below->planform, place)) /
                   change.width;
    }
    return moves;
}

DesignId coupon_width(const Board& board) {
    return find_design(board, "planform.rectangle_mm[1]")->id;
}

BoardNumbers flex_by_width(const Board& board) {
    NumbersOptions options;
    options.outline = true;
    options.lines = {LineValue{coupon_width(board), {}}};
    return board_numbers(board, {{NumberId::Kind::bench_case, "centre-flex"}}, options);
}

} // namespace

// Length added at its ends, beyond the rollers, does not count in bending.
TEST_CASE("width added everywhere along a coupon is a greater width of it") {
    const Board board = example("coupon-sandwich");
    const BoardNumbers found = flex_by_width(board);
    const OutlineDensity& outline = found.outline;
    CHECK(outline.length.sum() ==
          Approx(2 * (x_extent(board.planform)[1] - x_extent(board.planform)[0] +
                      width_at(board.planform, 0)))
              .epsilon(1e-9));
    const double by_width = slopes_by(found, {coupon_width(board)})(0, 0);
    CHECK(outline.density.col(0).dot(outline.length) / 2 == Approx(by_width).epsilon(1e-5));
}

// The outline cuts the pattern of strips, so that a wider board has more of the outer strip.
TEST_CASE("width added everywhere along a coupon changes the mix of its core, too") {
    Board board = example("coupon-sandwich");
    const std::string wood = board.core->strips.front().material;
    Material stiff = board.materials.at(wood);
    stiff.name = "stiff";
    stiff.E1 *= 30;
    complete(stiff);
    board.materials["stiff"] = stiff;
    const double half = width_at(board.planform, 0) / 2;
    board.core->strips = {{wood, 0.7 * half, {}, ""}, {"stiff", 0.9 * half, {}, ""}};
    const BoardNumbers found = flex_by_width(board);
    const double by_width = slopes_by(found, {coupon_width(board)})(0, 0);
    // without the mix the stiffness would be in proportion to the width
    CHECK(by_width > 1.02 * found.numbers[0].quantity.value / (2 * half));
    CHECK(found.outline.density.col(0).dot(found.outline.length) / 2 ==
          Approx(by_width).epsilon(1e-5));
}

TEST_CASE("the density of width times the move of a waist sums to the derivative by the waist") {
    const auto [flat, wide] =
        GENERATE(table<bool, bool>({{true, false}, {true, true}, {false, false}}));
    Board board = example("nh-157-biax");
    for (Strip& strip : board.core->strips) { // the outline cuts a pattern of wide ones
        strip.width *= wide ? 3 : 1;
    }
    const LineValue waist{find_design(board, "planform.waist_width_mm")->id, {}};
    NumbersOptions options;
    options.degree = 2;
    options.flat = flat;
    options.outline = true;
    options.lines = {waist};
    std::vector<NumberId> requests{{NumberId::Kind::bench_case, "nose-twist"},
                                   {NumberId::Kind::bench_case, "centre-flex"},
                                   {NumberId::Kind::mode, "", 1}};
    const BoardNumbers found = board_numbers(board, requests, options);
    const OutlineDensity& outline = found.outline;
    const Eigen::VectorXd moves = moves_by(board, outline, waist);
    CHECK(moves.maxCoeff() == Approx(0.5).epsilon(0.01)); // at the waist, on either side
    for (std::size_t k = 0; k < requests.size(); ++k) {
        const double by_waist = slopes_by(found, {waist.id})(static_cast<Eigen::Index>(k), 0);
        const double sum = outline.density.col(static_cast<Eigen::Index>(k))
                               .cwiseProduct(outline.length)
                               .dot(moves);
        INFO(number_name(requests[k]) << ": " << sum << ", " << by_waist);
        // the move is straight between vertices there
        constexpr double length = 0.3; // m: what a number is a length
        CHECK(std::abs(sum - by_waist) <=
              3e-3 * std::max(std::abs(by_waist), found.numbers[k].quantity.value / length));
    }
}
