#include "solver/system/elimination_order.hpp"

#include <algorithm>
#include <cstddef>

namespace vrid {

EliminationOrder order_rows(const Factor& factor) {
    const EliminationTree& tree = *factor.tree;
    EliminationOrder order;
    std::vector<int> row(factor.fixed.size(), -1);
    for (const EliminationFront& front : tree.fronts) {
        order.first.push_back(static_cast<int>(order.dof.size()));
        for (const int n : front.pivots) {
            for (int d = node_dofs * n; d < node_dofs * (n + 1); ++d) {
                if (factor.fixed[d] == 0) {
                    row[d] = static_cast<int>(order.dof.size());
                    order.dof.push_back(d);
                }
            }
        }
    }
    std::vector<int> boundary;
    std::vector<Run> runs;
    order.first_run = {0};
    for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
        boundary.clear();
        for (const int n : tree.fronts[f].boundary) {
            const auto begin = row.begin() + static_cast<std::ptrdiff_t>(node_dofs) * n;
            boundary.insert(boundary.end(), begin, begin + node_dofs);
        }
        find_runs(boundary, runs);
        order.runs.insert(order.runs.end(), runs.begin(), runs.end());
        order.first_run.push_back(static_cast<int>(order.runs.size()));
        order.largest =
            std::max(order.largest, factor.fronts[f]->pivots + factor.fronts[f]->boundary);
    }
    return order;
}

} // namespace vrid
