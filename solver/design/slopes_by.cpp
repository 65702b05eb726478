#include <algorithm>

#include "solver/design/board_numbers.hpp"

namespace vrid {

MatrixXd slopes_by(const BoardNumbers& numbers, const std::vector<DesignId>& ids) {
    MatrixXd slopes =
        MatrixXd::Zero(static_cast<Index>(numbers.numbers.size()), static_cast<Index>(ids.size()));
    for (Index column = 0; column < slopes.cols(); ++column) {
        const auto found = std::ranges::find(numbers.values, ids[static_cast<std::size_t>(column)]);
        for (Index k = 0; k < slopes.rows() && found != numbers.values.end(); ++k) {
            slopes(k, column) =
                numbers.numbers[static_cast<std::size_t>(k)].slope(found - numbers.values.begin());
        }
    }
    return slopes;
}

} // namespace vrid
