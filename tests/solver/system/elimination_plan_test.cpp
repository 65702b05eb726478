#include "solver/system/elimination_plan.hpp"

#include <catch2/catch.hpp>

#include "solver/system/front_assembly.hpp"

using namespace vrid;

namespace {

// Leaves 0 and 1 under front 2, leaf 3 beside it under the root 4; a node or two each.
EliminationTree small_tree() {
    EliminationTree tree;
    tree.dofs.nodes = 8;
    tree.fronts.resize(5);
    const std::vector<int> parents{2, 2, 4, 4, -1};
    const std::vector<std::vector<int>> pivots{{0}, {1, 2}, {3}, {4}, {5, 6}};
    const std::vector<std::vector<int>> boundary{{3, 5}, {3}, {5}, {5, 6}, {}};
    for (std::size_t f = 0; f < 5; ++f) {
        tree.fronts[f].parent = parents[f];
        tree.fronts[f].pivots = pivots[f];
        tree.fronts[f].boundary = boundary[f];
    }
    tree.fronts[2].children = {0, 1};
    tree.fronts[4].children = {2, 3};
    return tree;
}

constexpr std::size_t small_dofs = 40;

std::vector<char> fixed_at(std::initializer_list<int> dofs) {
    std::vector<char> fixed(small_dofs, 0);
    for (const int d : dofs) {
        fixed[static_cast<std::size_t>(d)] = 1;
    }
    return fixed;
}

} // namespace

TEST_CASE("a plan counts free pivots and lays their columns one after the other") {
    const EliminationTree tree = small_tree();
    const EliminationPlan plan = plan_elimination(tree, fixed_at({1, 7, 8, 39}), {});
    CHECK(plan.pivots == std::vector<int>{4, 8, 5, 5, 10});
    CHECK(plan.compute == std::vector<char>(5, 1));
    CHECK(plan.keep == std::vector<char>(5, 0));
    // (pivots + boundary) x pivots: 14 x 4, 13 x 8, 10 x 5, 15 x 5, 10 x 10
    CHECK(plan.place == std::vector<std::size_t>{0, 56, 160, 210, 285});
    CHECK(plan.size == 385);
    CHECK(plan.kept_size == 0);
    // the work of a subtree, with 20 for every number of a front moved
    const auto own = [](double k, double m) { return front_flops(k, m) + 20 * (k + m) * (k + m); };
    CHECK(plan.work[0] == Approx(own(4, 10)));
    CHECK(plan.work[2] == Approx(own(4, 10) + own(8, 5) + own(5, 5)));
    CHECK(plan.work[4] == Approx(plan.work[2] + own(5, 10) + own(10, 0)));
    // k steps of a Cholesky that meet all below: the sum over j of (k - j + m)^2, about
    double steps = 0;
    for (int j = 1; j <= 200; ++j) {
        steps += (200.0 - j + 300) * (200.0 - j + 300);
    }
    CHECK(front_flops(200, 300) == Approx(steps).epsilon(5e-3));
}

TEST_CASE("a shared factor's fronts are taken over where nothing below them changed") {
    const EliminationTree tree = small_tree();
    Factor shared;
    shared.tree = &tree;
    shared.fixed = fixed_at({0});
    for (int f = 0; f < 5; ++f) {
        auto front = std::make_shared<FrontFactor>();
        if (f != 3) { // its Schur complement was not kept
            front->schur = std::make_shared<const double>(0);
        }
        shared.fronts.push_back(front);
    }
    FactorOptions options;
    options.shared = &shared;
    const auto computed = [&](std::initializer_list<int> dofs) {
        return plan_elimination(tree, fixed_at(dofs), options).compute;
    };
    using Flags = std::vector<char>;
    CHECK(computed({0}) == Flags{0, 0, 0, 0, 0});
    CHECK(computed({0, 9}) == Flags{0, 1, 1, 1, 1}); // node 1: its front, those above, and 3
    CHECK(computed({}) == Flags{1, 0, 1, 1, 1});
    CHECK(computed({0, 32}) == Flags{0, 0, 0, 1, 1}); // of the root alone
    CHECK(plan_elimination(tree, fixed_at({0}), options).size == 0);
    const EliminationTree other = small_tree(); // of another mesh: nothing can be taken over
    CHECK(plan_elimination(other, fixed_at({0}), options).compute == Flags(5, 1));
}

TEST_CASE("what may be joined anew later is kept") {
    const EliminationTree tree = small_tree();
    FactorOptions options;
    options.may_change = fixed_at({6}); // node 1, of front 1
    const EliminationPlan plan = plan_elimination(tree, fixed_at({}), options);
    CHECK(plan.keep == std::vector<char>{1, 1, 1, 1, 0}); // fronts 2 and 4 may be done again
    CHECK(plan.kept_place[1] == handed_size(10));
    CHECK(plan.kept_size ==
          2 * handed_size(10) + 2 * handed_size(5)); // boundaries of 2, 1, 1 and 2 nodes
    options.may_change = fixed_at({20});             // node 4, of front 3
    CHECK(plan_elimination(tree, fixed_at({}), options).keep == std::vector<char>{0, 0, 1, 1, 0});
}

TEST_CASE("tasks hold every front to be computed once, small subtrees whole") {
    const EliminationTree tree = small_tree();
    const EliminationPlan plan = plan_elimination(tree, fixed_at({}), {});
    const auto one = split_tasks(tree, plan, 1);
    REQUIRE(one.size() == 1);
    CHECK(one[0].front == 4);
    CHECK(one[0].subtree);
    for (const int threads : {2, 50}) {
        const auto tasks = split_tasks(tree, plan, threads);
        std::vector<int> done(5, 0);
        for (const EliminationTask& task : tasks) {
            for (int f = 0; f <= task.front; ++f) {
                int above = f;
                while (above >= 0 && above != task.front) {
                    above = tree.fronts[static_cast<std::size_t>(above)].parent;
                }
                done[static_cast<std::size_t>(f)] +=
                    f == task.front || (task.subtree && above == task.front) ? 1 : 0;
            }
        }
        CHECK(done == std::vector<int>(5, 1));
    }
    EliminationPlan half = plan;
    half.compute[4] = half.compute[2] = 0; // as if taken over
    half.work[4] = half.work[2] = 0;
    for (const EliminationTask& task : split_tasks(tree, half, 2)) {
        CHECK(task.front != 4);
        CHECK(task.front != 2);
    }
}
