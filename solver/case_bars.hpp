#pragma once

#include <vector>

#include "solver/case_answers.hpp"

namespace vrid {

/// A place [m] or a turn of the board out of the press: it may be zero.
bool is_place(const Quantity& number);

/// What all cases gave at one degree.
struct CasesAtDegree {
    const PlateModel& model;
    const std::vector<Answer>& answers;
};

/// The numbers of the finer degree, case by case, with their error bars: by the change from the
/// coarser, of a stiffness also by the change of strains (error_bar.hpp). The same cases on the
/// same mesh at p - 1 and p; p = 1 twice: no bars.
std::vector<std::vector<NamedQuantity>> numbers_with_bars(const CasesAtDegree& coarse,
                                                          const CasesAtDegree& fine, int threads);

} // namespace vrid
