#pragma once

#include <optional>
#include <vector>

#include <Eigen/Core>

namespace vrid {

/// Limits of a number, SI.
struct NumberLimits {
    std::optional<double> min, max;
};

/// A number to first order: normal, with mean and deviation known exactly.
struct LinearModel {
    double mean = 0, sd = 0; ///< SI
};

/// A value found from samples, with its standard error.
struct Estimate {
    double value = 0, error = 0;
    friend bool operator==(const Estimate&, const Estimate&) = default;
};

/// How a number scatters by samples of it with its linear model as a control variate.
struct ControlledSpread {
    Estimate mean, sd;               ///< SI
    double p5 = 0, p50 = 0, p95 = 0; ///< 5, 50 and 95 % of boards lie below, SI
    std::optional<Estimate> yield;   ///< share inside the limits; nothing without limits
    double plain_samples = 0; ///< as many plain ones would know the deviation as well; 0: no bound
};

/// Fewest samples that a spread is found from.
constexpr int least_controlled = 8;

/// A few samples do the work of thousands where a linear model with known distribution follows
/// the number: only the difference from it has to be sampled (control variates: Ng, Willcox,
/// Int. J. Numer. Meth. Eng. 100, 2014; Peherstorfer, Willcox, Gunzburger, SIAM Review 60, 2018;
/// both from memory). The controls here are the model's own standard normal t and its square,
/// with means 0 and 1: y = mean + sd t + a + b t + c t^2 + rest, least squares. The rest's
/// deviations count as they were found, at any t. For the mean alone, from 16 samples on, also
/// u^2 and t u (means 1 and 0), if there is a u. Standard errors by the jackknife, leaving out each
/// sample (of many samples each of 48 groups).
/// \param t of each sample: (linear prediction - mean) / sd; all 0 where sd is 0
/// \param y the samples themselves, SI
/// \param across u of each sample: what the two values that scatter the number most draw at right
/// angles to t, standard normal; empty: no two make most of it
/// \pre at least least_controlled samples
ControlledSpread controlled_spread(const LinearModel& model, const std::vector<double>& t,
                                   const std::vector<double>& y, const NumberLimits& limits,
                                   const std::vector<double>& across = {});

/// Of the linear model's step in its own deviations for one in each value's (a unit vector): that
/// of u, if the two largest entries make at least half of it; else empty.
Eigen::VectorXd across_two(const Eigen::VectorXd& along);

/// Share of a normal distribution below a value.
double normal_below(double z);

} // namespace vrid
