#include "mesh/block_plan.hpp"

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Vector2d;

namespace {

BlockPlan plan_of(const std::vector<StraightLine>& straight, bool symmetric = false) {
    MeshLines lines;
    lines.straight = straight;
    lines.symmetric = symmetric;
    MeshOptions options;
    options.max_size = 0.2;
    options.geometry_degree = 2;
    return plan_blocks(rectangle_planform(1, 0.4), lines, options);
}

// Area of all blocks by their corners.
double block_area(const BlockPlan& plan) {
    double twice = 0;
    for (const Block& block : plan.blocks.blocks) {
        for (std::size_t k = 0; k < 4; ++k) {
            const Vector2d& a = plan.blocks.vertices[static_cast<std::size_t>(block.vertices[k])];
            const Vector2d& b =
                plan.blocks.vertices[static_cast<std::size_t>(block.vertices[(k + 1) % 4])];
            twice += a.x() * b.y() - a.y() * b.x();
        }
    }
    return twice / 2;
}

} // namespace

TEST_CASE("lines that leave good quads are all followed, each block with a grid of its size") {
    const StraightLine station{{0.1, -0.2}, {0.1, 0.2}, Rank::wanted_station, "station"};
    const StraightLine axis{{-0.5, 0}, {0.5, 0}, Rank::axis, "long axis"};
    const BlockPlan plan = plan_of({station, axis});
    CHECK(plan.notes.empty());
    CHECK(plan.blocks.blocks.size() == 4);
    REQUIRE(plan.grids.size() == 4);
    for (std::size_t k = 0; k < 4; ++k) {
        const Block& block = plan.blocks.blocks[k];
        const auto divided = [&](std::size_t side) {
            return plan.blocks.edges[static_cast<std::size_t>(block.edges[side])].divisions;
        };
        CHECK(plan.grids[k].columns == divided(0));
        CHECK(plan.grids[k].rows == divided(1));
    }
    CHECK(block_area(plan) == Approx(0.4));
    const BlockPlan half = plan_of({station, axis}, true);
    CHECK(half.blocks.blocks.size() == 4);
    CHECK(half.blocks.half == 2);
    CHECK(block_area(half) == Approx(0.4));
}

TEST_CASE("a hard line that grazes the outline is left there, and the user is told how far") {
    // 4 degrees off the side, from its corner: 35 mm above it at the far end
    const StraightLine grazing{{-0.5, -0.2}, {0.5, -0.13}, Rank::zone, "side of zone of 'patch'"};
    const StraightLine axis{{-0.5, 0}, {0.5, 0}, Rank::axis, "long axis"};
    const BlockPlan plan = plan_of({grazing, axis});
    REQUIRE(plan.notes.size() == 1);
    CHECK_THAT(plan.notes[0],
               Catch::StartsWith("side of zone of 'patch' is not followed by the mesh "
                                 "from x = -500 mm, y = -200 mm to x = 500 mm, y = "
                                 "-130 mm;"));
    CHECK_THAT(plan.notes[0], Catch::EndsWith("it would make too sharp a quad"));
    CHECK(plan.notes[0].find("likewise") == std::string::npos);
    CHECK(block_area(plan) == Approx(0.4));
    StraightLine soft = grazing;
    soft.rank = Rank::wanted_band;
    CHECK(plan_of({soft, axis}).notes.empty()); // nothing jumps there
}

TEST_CASE("of two lines that leave a sliver the less important one is given up") {
    // a zone's border that meets a foot's side at 9 degrees within millimetres of a station
    const StraightLine station{{0.1, -0.2}, {0.1, 0.2}, Rank::wanted_station, "station"};
    const StraightLine foot{{-0.5, 0.05}, {0.1, 0.05}, Rank::foot, "foot"};
    const StraightLine side{{-0.5, -0.05}, {0.1, 0.0501}, Rank::zone, "side"};
    const BlockPlan plan = plan_of({station, foot, side});
    CHECK(block_area(plan) == Approx(0.4));
    std::vector<int> quad_block;
    const Mesh mesh = assemble_mesh(plan.map, plan.blocks, plan.grids, 2, &quad_block);
    CHECK(worst_place(mesh).corner_sine > smallest_corner_sine);
    for (const std::string& note : plan.notes) {
        CHECK(note.find("station") == std::string::npos);
    }
}
