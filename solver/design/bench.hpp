#pragma once

#include <string>
#include <vector>

#include "solver/design/free_value.hpp"
#include "solver/design/number_id.hpp"
#include "solver/design/tolerance.hpp"

namespace vrid {

/// A number of a built board as the bench read it.
struct BenchReading {
    NumberId number;
    double value = 0; ///< SI
    double sd = 0;    ///< one standard deviation of the reading, above 0, SI
    std::string place;
};

/// The content of a bench file.
struct Bench {
    std::string file;
    std::vector<BenchReading> readings; ///< a number may be read more than once
    std::vector<FreeValue> free;
    /// Of the free values, in their order; one without a deviation is not in it, and then there
    /// are at least as many readings as free values.
    std::vector<Tolerance> priors;
};

} // namespace vrid
