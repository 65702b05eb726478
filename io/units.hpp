#pragma once

#include <string>

#include "solver/response/quantity.hpp"

namespace vrid {

/// A unit at the border: its name and how many of it make one SI unit.
struct BenchUnit {
    std::string name;
    double per_si = 1;
};

/// The bench unit in which tables and result.json show a number.
BenchUnit bench_unit(Unit unit);

} // namespace vrid
