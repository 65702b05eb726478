#pragma once

#include <vector>

#include "benchmarks/measure/means.hpp"
#include "benchmarks/measure/row.hpp"

namespace vrid::measure {

// One file a part, in the order of the table. Seconds are of the process and of one thread where
// nothing else is said: other load on the machine touches them least.

/// 1: time at equal error against a general finite element library, benchmarks/general_fe.
std::vector<Row> library_rows(const Means& means);
/// 2 and the first of 7: the factorisation against dense multiplication, its memory and growth.
std::vector<Row> elimination_rows(const Means& means);
/// 3: what it takes to start the program.
std::vector<Row> start_rows(const Means& means);
/// 4: the bent board and the bent edge against the seven cases at rest.
std::vector<Row> bend_rows(const Means& means);
/// 5: what 24 samples of `scatter` are worth.
std::vector<Row> scatter_rows(const Means& means);
/// 6: builds in a fresh root; they cannot be run from within one.
std::vector<Row> build_rows(const Means& means);
/// 7: a whole study over its unknowns.
std::vector<Row> growth_rows(const Means& means);
/// 7: a lot of 1e5 boards.
std::vector<Row> lot_rows(const Means& means);
/// 7: a suite of 1e4 jobs.
std::vector<Row> suite_rows(const Means& means);
/// Beyond the list: derivatives and a map of edge conditions against one solve.
std::vector<Row> derivative_rows(const Means& means);
std::vector<Row> edge_map_rows(const Means& means);

} // namespace vrid::measure
