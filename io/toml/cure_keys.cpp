#include "io/toml/cure_keys.hpp"

namespace vrid {

namespace {

constexpr Bounds temperature{-100, 300}; // [deg C]
constexpr Bounds shrink{-5, 5};          // [%]
constexpr Bounds swell{-1, 2};           // [% per percentage point]

} // namespace

std::vector<BoardKey> cure_keys() {
    using enum KeyForm;
    return {
        {"", "cure", table, {}, "", "how it was pressed: what shape leaves the mould", ""},
        {"cure", "stress_free_C", number, temperature, "required",
         "where the resin begins to hold: its gel or glass temperature, whichever is lower; not "
         "the platen's reading",
         "85"},
        {"cure", "room_C", number, temperature, "20", "of the case release", "20"},
        {"cure", "cold_C", number, temperature, "-20", "of the case cold", "-20"},
        {"cure",
         "moisture_percent",
         number,
         {-30, 30},
         "0",
         "change of the wood's moisture in percentage points, use minus pressing",
         "-2"},
        {"cure",
         "mould_z_mm",
         stations,
         {-1000, 1000},
         "",
         "[station, height] of a mould that exists: the board out of it is shown too",
         "[[-775, 40], [-580, 0], [0, 2], [580, 0], [785, 43]]"},
        {"material", "stress_free_C", number, temperature, "that of [cure]",
         "above it a plastic creeps and holds no stress; a fabric takes its resin's", "55"},
        {"material", "shrink1_percent", number, shrink, "0",
         "shrink of a resin after gelation, or of a measured ply along", "0.1"},
        {"material", "shrink2_percent", number, shrink, "0", "shrink of a measured ply across",
         "0.2"},
        {"material", "swell1_percent", number, swell, "0",
         "strain along, in percent for a percentage point of moisture", "0.005"},
        {"material", "swell2_percent", number, swell, "0", "the same across", "0.15"},
        {"material",
         "slow",
         number,
         {0, 1, true},
         "1",
         "share of its stiffness that a creeping plastic still shows after hours",
         "0.4"},
    };
}

} // namespace vrid
