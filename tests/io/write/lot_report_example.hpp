#pragma once

#include "io/write/lot_report.hpp"

namespace vrid::tests {

/// A lot of six boards A1 to A6 and two numbers in which nothing was found: round numbers in units
/// that differ from SI by different factors (g, mm, deg, GPa), so that a wrong one is seen.
LotReport lot_report_example();

} // namespace vrid::tests
