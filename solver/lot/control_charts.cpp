#include "solver/lot/control_charts.hpp"

#include <algorithm>
#include <cmath>

namespace vrid {

Ewma ewma(const VectorXd& values, double start, double weight, double sd) {
    Ewma chart{VectorXd(values.size()), VectorXd(values.size())};
    double line = start;
    double share = 0; // variance of the line over that of a value
    for (Index i = 0; i < values.size(); ++i) {
        if (!std::isnan(values(i))) {
            line += weight * (values(i) - line);
            share = weight * weight + (1 - weight) * (1 - weight) * share;
        }
        chart.line(i) = line;
        chart.half_width(i) = 3 * sd * std::sqrt(share);
    }
    return chart;
}

Cusum cusum(const VectorXd& values, double target, double k, double h) {
    Cusum sums{VectorXd(values.size()), VectorXd(values.size()), {}};
    double upper = 0;
    double lower = 0;
    for (Index i = 0; i < values.size(); ++i) {
        upper = std::max(0.0, upper + values(i) - target - k);
        lower = std::max(0.0, lower + target - k - values(i));
        sums.upper(i) = upper;
        sums.lower(i) = lower;
        if (!sums.signal && (upper > h || lower > h)) {
            sums.signal = i;
        }
    }
    return sums;
}

} // namespace vrid
