#include <algorithm>

#include "solver/design/board_numbers.hpp"

namespace vrid {

std::vector<std::size_t> numbers_where(const BoardNumbers& numbers,
                                       const std::function<bool(const NumberId&)>& which) {
    std::vector<std::size_t> found;
    for (std::size_t k = 0; k < numbers.numbers.size(); ++k) {
        if (which(numbers.numbers[k].request)) {
            found.push_back(k);
        }
    }
    return found;
}

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
