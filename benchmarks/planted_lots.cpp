// How often what `vrid lot` says of a lot holds the truth: 800 seeded lots of 40 boards of NH-157,
// seven readings, one cell in twenty missing. Prints the shares beside what is asked for; exit
// status 1 if one is outside.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "../tests/lot_example.hpp"
#include "../tests/planted_lots.hpp"

int main(int argc, char** argv) {
    using namespace vrid;
    const int lots = argc > 1 ? std::atoi(argv[1]) : 800;
    const LotModel model = lot_example(VRID_SOURCE_DIR);
    const std::size_t group = strongest_group(model);
    const auto start = std::chrono::steady_clock::now();
    const PlantedShares found = planted_shares(model, group, first_value_of(model, group), lots, 2);
    struct Line {
        const char* what;
        double found, low, high;
    };
    bool inside = true;
    for (const Line& line :
         {Line{"95 % interval of one shift holds it", found.one_shift, 0.92, 0.98},
          Line{"of all values at once", found.all_shifts, 0.92, 0.98},
          Line{"of a group's factor, 1", found.factor_one, 0.92, 0.98},
          Line{"of a group's factor, 4", found.factor_four, 0.92, 0.98},
          Line{"of the share outside", found.outside, 0.92, 0.98},
          Line{"p of spread below 0.05", found.spread_small, 0.02, 0.09},
          Line{"p of change below 0.05", found.change_small, 0.02, 0.09},
          Line{"a false outlier", found.false_outlier, 0, 0.04}}) {
        const bool good = line.found >= line.low && line.found <= line.high;
        inside = inside && good;
        std::printf("%-40s %6.2f %%  (%g to %g)%s\n", line.what, 100 * line.found, 100 * line.low,
                    100 * line.high, good ? "" : "  OUTSIDE");
    }
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
    std::printf("%d lots, %.1f s\n", lots, spent.count());
    return inside ? 0 : 1;
}
