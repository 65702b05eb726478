#include "solver/prepared.hpp"

#include <algorithm>

#include <catch2/catch.hpp>

#include "mesh/mesh_lines.hpp"
#include "solver/cases/degree_run.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

constexpr double size = 0.2; // [m]

SharedPrepared prepared_strip(int degree) {
    const Board board = example("coupon-torsion");
    return prepared_on(board, mesh_planform(board, {{0.0}, {}, size}), degree, size, {0.0});
}

} // namespace

TEST_CASE("a mesh is prepared with the nodes of its degree and of the one below, 1 at the least") {
    for (const int degree : {1, 2, 4}) {
        const SharedPrepared prepared = prepared_strip(degree);
        const int lower = std::max(1, degree - 1);
        const int nodes = number_nodes(prepared->mesh, degree).nodes;
        CHECK(prepared->trees[0].dofs.nodes == number_nodes(prepared->mesh, lower).nodes);
        CHECK(prepared->trees[1].dofs.nodes == nodes);
        CHECK(prepared->unknowns == 5 * nodes);
        CHECK(tree_of(prepared, degree).get() == &prepared->trees[1]);
    }
    const SharedPrepared prepared = prepared_strip(4);
    CHECK(tree_of(prepared, 3).get() == &prepared->trees[0]);
}

TEST_CASE(
    "what a mesh was not prepared for is refused and named, what settings leave open is not") {
    const SharedPrepared prepared = prepared_strip(2);
    const Board board = example("coupon-torsion");
    const auto check = [&](const Settings& settings, const std::vector<double>& stations) {
        check_prepared(*prepared, board, settings, stations);
    };
    const Settings open;
    CHECK_NOTHROW(check(open, {0.0}));
    CHECK_NOTHROW(check(open, {}));
    CHECK_THROWS_WITH(check(open, {0.0, 0.1}), "the mesh was prepared for cases with other lines");
    Settings other = open;
    other.degree = 3;
    CHECK_THROWS_WITH(check(other, {}), "the mesh was prepared for degree 2, not 3");
    other = open;
    other.max_size = 0.1;
    CHECK_THROWS_WITH(check(other, {}),
                      "the mesh was prepared for sides up to 0.200000 m, not 0.100000");
    Board longer = board;
    longer.planform.running_length *= 1.01;
    CHECK_THROWS_WITH(check_prepared(*prepared, longer, open, {}),
                      "the mesh was prepared for a board with other lines");
}
