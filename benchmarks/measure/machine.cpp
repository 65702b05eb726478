#include "benchmarks/measure/machine.hpp"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <thread>
#include <vector>

#include <cblas.h>

#include "benchmarks/plate.hpp"

namespace vrid::measure {

std::string machine_text() {
    openblas_set_num_threads(1);
    const char* forced = std::getenv("OPENBLAS_CORETYPE");
    std::array<double, 1> load{};
    getloadavg(load.data(), 1);
    std::array<char, 300> text{};
    std::snprintf(text.data(), text.size(),
                  "%u cores, load %.1f before (a quiet machine has 0); dense kernel %s, "
                  "OPENBLAS_CORETYPE %s,\n%.1f Gflop/s on one thread; medians of runs in turn, "
                  "least and greatest in brackets\n",
                  std::thread::hardware_concurrency(), load[0], openblas_get_corename(),
                  forced != nullptr ? forced : "not set", dgemm_rate() * 1e-9);
    return text.data();
}

void touch_memory(double bytes) {
    const std::vector<char> memory(static_cast<std::size_t>(bytes), 1);
    volatile char last = memory[memory.size() / 2];
    static_cast<void>(last);
}

} // namespace vrid::measure
