#pragma once

#include <string>
#include <vector>

namespace vrid {

/// What a user needs to know of a bench case.
struct CaseInfo {
    std::string name;     ///< "nose-twist"
    std::string held, loaded, reported; ///< one phrase each
};

/// The table of bench cases, in the order they are printed.
const std::vector<CaseInfo>& bench_cases();

} // namespace vrid
