#include "solver/system/elimination_plan.hpp"

#include "solver/system/front_assembly.hpp"

namespace vrid {

namespace {

int count_free(const std::vector<int>& nodes, const std::vector<char>& fixed) {
    int count = 0;
    for (const int n : nodes) {
        for (int d = node_dofs * n; d < node_dofs * (n + 1); ++d) {
            count += fixed[d] == 0 ? 1 : 0;
        }
    }
    return count;
}

// Per front: does any pivot of its subtree satisfy the predicate?
template <class Predicate>
std::vector<char> subtree_has(const EliminationTree& tree, Predicate predicate) {
    std::vector<char> has(tree.fronts.size(), 0);
    for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
        const EliminationFront& front = tree.fronts[f];
        bool any = has[f] != 0;
        for (std::size_t i = 0; i < front.pivots.size() && !any; ++i) {
            for (int c = 0; c < node_dofs; ++c) {
                any = any || predicate(node_dofs * front.pivots[i] + c);
            }
        }
        has[f] = any ? 1 : 0;
        if (any && front.parent >= 0) {
            has[front.parent] = 1;
        }
    }
    return has;
}

// From the roots down: an unchanged front is taken over if its parent needs nothing of it, or its
// Schur complement was kept.
std::vector<char> fronts_to_compute(const EliminationTree& tree, const std::vector<char>& fixed,
                                    const Factor* shared) {
    std::vector<char> compute(tree.fronts.size(), 1);
    if (shared == nullptr || shared->tree != &tree) {
        return compute;
    }
    const auto changed =
        subtree_has(tree, [&](int dof) { return (fixed[dof] != 0) != (shared->fixed[dof] != 0); });
    for (int f = static_cast<int>(tree.fronts.size()) - 1; f >= 0; --f) {
        const int parent = tree.fronts[f].parent;
        const bool handed = parent < 0 || compute[parent] == 0 || tree.fronts[f].boundary.empty() ||
                            shared->fronts[f]->schur;
        compute[f] = changed[f] == 0 && handed ? 0 : 1;
    }
    return compute;
}

// A Schur complement is wanted later where the front that joins it may have to be done anew.
std::vector<char> fronts_to_keep(const EliminationTree& tree, const std::vector<char>& may_change) {
    std::vector<char> keep(tree.fronts.size(), 0);
    if (may_change.empty()) {
        return keep;
    }
    const auto changes = subtree_has(tree, [&](int dof) { return may_change[dof] != 0; });
    for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
        const int parent = tree.fronts[f].parent;
        keep[f] = parent >= 0 && changes[parent] != 0 ? 1 : 0;
    }
    return keep;
}

} // namespace

EliminationPlan plan_elimination(const EliminationTree& tree, const std::vector<char>& fixed,
                                 const FactorOptions& options) {
    const std::size_t fronts = tree.fronts.size();
    EliminationPlan plan;
    plan.compute = fronts_to_compute(tree, fixed, options.shared);
    plan.keep = fronts_to_keep(tree, options.may_change);
    plan.pivots.resize(fronts);
    plan.place.resize(fronts);
    plan.kept_place.resize(fronts);
    plan.work.assign(fronts, 0);
    for (std::size_t f = 0; f < fronts; ++f) {
        const int k = plan.pivots[f] = count_free(tree.fronts[f].pivots, fixed);
        if (plan.compute[f] == 0) {
            continue;
        }
        const double n = k + boundary_dofs(tree.fronts[f]);
        plan.place[f] = plan.size;
        plan.size += static_cast<std::size_t>(n) * k;
        plan.kept_place[f] = plan.kept_size;
        plan.kept_size += plan.keep[f] != 0 ? handed_size(boundary_dofs(tree.fronts[f])) : 0;
        plan.work[f] += front_work(k, n - k);
        if (tree.fronts[f].parent >= 0) {
            plan.work[tree.fronts[f].parent] += plan.work[f];
        }
    }
    return plan;
}

double total_work(const EliminationTree& tree, const EliminationPlan& plan) {
    double total = 0;
    for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
        total += tree.fronts[f].parent < 0 ? plan.work[f] : 0;
    }
    return total;
}

std::vector<EliminationTask> split_tasks(const EliminationTree& tree, const EliminationPlan& plan,
                                         int threads) {
    const double total = total_work(tree, plan);
    constexpr int pieces = 8; // per thread: enough to even them out, few enough to stay large
    const double limit = threads > 1 ? total / (pieces * threads) : total;
    std::vector<EliminationTask> tasks;
    for (int f = 0; f < static_cast<int>(tree.fronts.size()); ++f) {
        const int parent = tree.fronts[f].parent;
        const bool subtree = plan.work[f] <= limit;
        const bool inside = subtree && parent >= 0 && plan.work[parent] <= limit;
        if (plan.compute[f] != 0 && !inside) {
            tasks.push_back({f, subtree});
        }
    }
    return tasks;
}

} // namespace vrid
