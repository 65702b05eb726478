#include "io/toml/accepted.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "io/toml/board_keys.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

// What is no key of the board file: parts of its values, values that only changes have, and the
// keys of goals, benches, suites and outlines.
constexpr double far = 5000; // farthest station or point from the origin [mm]

const std::vector<Accepted> others{
    Accepted{"outline.x_mm", -far, far}, // the columns of an outline_csv
    Accepted{"outline.y_mm", -far, far},
    Accepted{"core.thickness_mm.x_mm", -far, far},
    Accepted{"core.cross_mm.x_mm", -far, far},
    Accepted{"core.station_mm", -far, far}, // places of stations, as changes name them
    Accepted{"rest_shape.station_mm", -far, far},
    Accepted{"cure.mould_mm", -far, far},
    Accepted{"core.thickness_scale", 0.05, 20}, // scales stand in no board file, only in changes
    Accepted{"layer.areal_weight_scale", 0.05, 20},
    Accepted{"rest_shape.z_mm.x_mm", -far, far},
    Accepted{"cure.mould_z_mm.x_mm", -far, far},
    Accepted{"tolerance", 0, 1e6, true},
    Accepted{"tolerance.percent", 0, 100, true},
    Accepted{"edge.angle_deg", 10, 80}, // of a suite's map
    Accepted{"edge.force_N", 0, 1e5, true},
    Accepted{"edge.hardness_Npmm3", 0, 1e4, true},
    Accepted{".bend_mm", 0, 1000, true},
    Accepted{"edge.share", 0, 1},
    Accepted{"edge.hardness", 0, 1e6, true}, // N/mm3, or N/mm2 with the linear law
    Accepted{"approved.rider_kg", 10, 300},
    Accepted{"size.rider_kg", 10, 300},
    Accepted{"size.sidecut_m", 1, 1000},
    Accepted{"target.percent", -100, 1e4, true},
    Accepted{"target.value", -1e12, 1e12}, // bench units
    Accepted{"target.min", -1e12, 1e12},
    Accepted{"target.max", -1e12, 1e12},
    Accepted{"target.within_percent", 0, 100, true},
    Accepted{"target.within_mm", 0, 1000, true},
    Accepted{"target.within_deg", 0, 90, true},
    Accepted{"free.min", -1e12, 1e12}, // then: the range of the value
    Accepted{"free.max", -1e12, 1e12},
    Accepted{"free.max_slope", 0, 10, true},
    Accepted{"free.round_to", 0, 1e6, true},
    Accepted{"reading.value", -1e12, 1e12}, // bench units
    Accepted{"reading.sd", -1e12, 1e12},    // then: above 0
    Accepted{"reading.bias_sd", -1e12, 1e12},
    Accepted{"drift.percent", 0, 100},
};

std::vector<Accepted> all_ranges() {
    std::vector<Accepted> all = others;
    for (const BoardKey& key : board_keys()) {
        if (key.holds_numbers()) {
            const Bounds& b = key.bounds;
            all.push_back({std::string(key.table) + "." + std::string(key.key), b.min, b.max,
                           b.min_open, b.max_open});
        }
    }
    return all;
}

} // namespace

const Accepted& accepted(std::string_view key) {
    static const std::vector<Accepted> ranges = all_ranges();
    const auto found = std::ranges::find(ranges, key, &Accepted::key);
    if (found == ranges.end()) {
        throw std::logic_error("no accepted range for " + std::string(key));
    }
    return *found;
}

bool is_accepted(const Accepted& range, double value) {
    return std::isfinite(value) && (range.min_open ? value > range.min : value >= range.min) &&
           (range.max_open ? value < range.max : value <= range.max);
}

std::string number_text(double value) {
    constexpr int digits = 6;
    return shortest(round_significant(value, digits));
}

std::string accepted_text(const Accepted& range) {
    const std::string_view unit = file_unit(range.key).name;
    return "a number " + std::string(range.min_open ? "above " : "from ") + number_text(range.min) +
           (range.max_open ? " and below " : " to ") + number_text(range.max) +
           (unit.empty() ? "" : " (" + std::string(unit) + ")");
}

} // namespace vrid
