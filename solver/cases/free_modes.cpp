#include "solver/cases/cases.hpp"

namespace vrid {

BenchCase free_modes() {
    BenchCase bench;
    bench.info = {"free-modes", "nothing", "nothing",
                  "first six elastic frequencies of the board, mass-only items counted"};
    bench.unit = Unit::frequency;
    bench.modes = 6;
    bench.stations = [](const Board&) { return std::vector<double>{}; };
    return bench;
}

} // namespace vrid
