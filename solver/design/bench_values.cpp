#include "solver/design/bench_values.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/error.hpp"
#include "solver/design/design_board.hpp"

namespace vrid {

FreeValues free_values(const Board& board, const Bench& bench) {
    FreeValues free;
    std::vector<double> start;
    std::vector<double> min;
    std::vector<double> max;
    const std::vector<DesignValue> values = design_board(board).values;
    for (const FreeValue& table : bench.free) {
        const std::size_t before = free.ids.size();
        for (std::size_t k = 0; k < table.ids.size(); ++k) {
            const auto found = std::ranges::find(values, table.ids[k], &DesignValue::id);
            if (found == values.end()) {
                continue; // moves no number: the angle of the core layer
            }
            free.ids.push_back(table.ids[k]);
            free.names.push_back(table.names[k]);
            start.push_back(found->value);
            min.push_back(table.min);
            max.push_back(table.max);
        }
        if (free.ids.size() == before) {
            throw InputError(table.place, "\"" + table.value + "\" moves no number");
        }
    }
    const auto count = static_cast<Index>(start.size());
    free.start = Eigen::Map<VectorXd>(start.data(), count);
    free.min = Eigen::Map<VectorXd>(min.data(), count);
    free.max = Eigen::Map<VectorXd>(max.data(), count);
    free.weight = VectorXd::Zero(count);
    free.scale.resize(count);
    for (Index i = 0; i < count; ++i) {
        const auto prior = std::ranges::find(bench.priors, free.ids[static_cast<std::size_t>(i)],
                                             &Tolerance::value);
        free.weight(i) = prior == bench.priors.end() ? 0 : 1 / prior->sd;
        const double size = free.start(i) == 0 ? 1 : std::abs(free.start(i));
        free.scale(i) = free.weight(i) > 0 ? 1 / free.weight(i) : 0.1 * size;
    }
    return free;
}

} // namespace vrid
