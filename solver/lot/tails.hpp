#pragma once

#include <vector>

namespace vrid {

/// Share of a chi-square distribution above x.
double chi2_tail(double x, double degrees);
/// Value below which the share p of a chi-square distribution lies.
double chi2_quantile(double p, double degrees);
/// Value below which the share p of a normal distribution lies.
double normal_quantile(double p);

/// Holm's p-values of several tests together (Holm, A simple sequentially rejective multiple test
/// procedure, Scand. J. Stat. 6, 1979), in the order given: a test is rejected at a level when its
/// own is below.
std::vector<double> holm(const std::vector<double>& p);

} // namespace vrid
