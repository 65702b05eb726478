#pragma once

#include <vector>

#include "mesh/board/planform.hpp"
#include "solver/response/result.hpp"

namespace vrid {

/// Deflection and twist along the board, also where no mesh line runs.
struct LinesAlong {
    std::vector<double> x; ///< rising, from tip to tip [m]
    /// By case of the study, by station; none of a skipped case: mean of w over the width [m], and
    /// least-squares slope dw/dy [rad], as CaseResult has them of mesh lines.
    std::vector<std::vector<double>> deflection, twist;
};

/// Most between two stations of lines_along [m]: a centimetre, of a board shorter than 0.6 m a
/// sixtieth.
double line_step(const Planform& planform);

/// \param step most between two stations [m]; 0: line_step. The first and the last lie end_of_lines
/// inside the tips, where a round board has a width. By four points of Gauss across each part of
/// the board: exact where w is of degree 5 in y
LinesAlong lines_along(const Planform& planform, const StudyResult& study, double step = 0);
constexpr double end_of_lines = 1e-4; ///< [m]

} // namespace vrid
