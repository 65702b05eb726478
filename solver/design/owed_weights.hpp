#pragma once

#include <memory>
#include <utility>
#include <vector>

#include "solver/response/section_weights.hpp"

namespace vrid {

/// Sets of weights, and which request each of their columns belongs to.
struct OwedWeights {
    std::vector<std::shared_ptr<const SectionWeights>> sets;
    std::vector<std::size_t> request; ///< per column of all sets
    void add(std::shared_ptr<const SectionWeights> set, const std::vector<std::size_t>& columns) {
        sets.push_back(std::move(set));
        request.insert(request.end(), columns.begin(), columns.end());
    }
};

} // namespace vrid
