#include "io/toml/board_keys.hpp"

namespace vrid {

namespace {

using enum KeyForm;

constexpr Bounds change{-100, 100}; // of a core's thickness [mm]

const std::vector<BoardKey> construction_rows{
    {"", "include", text, no_bounds, "",
     "a file beside this one with [material.*] and [fabric.*] only", "\"fabrics.toml\""},
    {"core", "strips_left", tables, no_bounds, "required with strips_right",
     "instead of strips: those of the left half (y > 0)",
     "[{ material = \"poplar\", width_mm = 18 }]"},
    {"core", "strips_right", tables, no_bounds, "required with strips_left",
     "instead of strips: those of the right half (y < 0), from the centre line too",
     "[{ material = \"ash\", width_mm = 18 }]"},
    {"core", "cross_mm", stations, change, "",
     "[y, change of thickness] across, added to thickness_mm; y signed, linear between",
     "[[-130, -1.5], [-110, 0], [110, 0], [130, -1.5]]"},
    {"core.strips", "fill", text, no_bounds, "the first strip's material",
     "material where x_mm ends", "\"poplar\""},
    {"layer", "zones", tables, no_bounds, "", "instead of zone: several, the layer is in each",
     "[{ x_mm = [-500, -300] }, { x_mm = [300, 500] }]"},
    {"layer", "inlay", flag, no_bounds, "false",
     "true: let into the core, which is thinner there; the board keeps its height", "false"},
    {"layer.zone", "polygon_mm", points, any_station, "",
     "within these corners, in order; sides must not cross",
     "[[250, 20], [420, 20], [380, 90], [290, 90]]"},
};

// A table whose keys are those of another.
void add_alike(std::vector<BoardKey>& all, std::string_view table, std::string_view other) {
    std::vector<BoardKey> alike;
    for (BoardKey row : all) {
        if (row.table == other) {
            row.table = table;
            alike.push_back(row);
        }
    }
    all = with_rows(std::move(all), alike);
}

bool is_in(std::string_view table, std::string_view outer) {
    return table == outer ||
           (table.starts_with(outer) && table.size() > outer.size() && table[outer.size()] == '.');
}

constexpr Bounds temperature{-100, 300}; // [deg C]
constexpr Bounds shrink{-5, 5};          // [%]
constexpr Bounds swell{-1, 2};           // [% per percentage point]

} // namespace

std::vector<BoardKey> construction_keys() {
    return construction_rows;
}

std::vector<BoardKey> with_rows(std::vector<BoardKey> construction_rows,
                                const std::vector<BoardKey>& more) {
    for (const BoardKey& row : more) {
        const std::string_view outer = row.table.substr(0, row.table.find('.'));
        auto after = construction_rows.end();
        for (auto at = construction_rows.begin(); at != construction_rows.end(); ++at) {
            if (at->table == row.table) {
                after = at;
            }
        }
        for (auto at = construction_rows.begin();
             after == construction_rows.end() && at != construction_rows.end(); ++at) {
            if (is_in(at->table, outer) &&
                (at + 1 == construction_rows.end() || !is_in((at + 1)->table, outer))) {
                after = at;
            }
        }
        construction_rows.insert(after == construction_rows.end() ? after : after + 1, row);
    }
    return construction_rows;
}

std::vector<BoardKey> with_alike_tables(std::vector<BoardKey> construction_rows) {
    add_alike(construction_rows, "core.strips_left", "core.strips");
    add_alike(construction_rows, "core.strips_right", "core.strips");
    add_alike(construction_rows, "layer.zones", "layer.zone");
    return construction_rows;
}

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
        {"cure", "moisture_percent", number, bounds(-30, 30), "0",
         "change of the wood's moisture in percentage points, use minus pressing", "-2"},
        {"cure", "mould_z_mm", stations, bounds(-1000, 1000), "",
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
        {"material", "slow", number, bounds_above(0, 1), "1",
         "share of its stiffness that a creeping plastic still shows after hours", "0.4"},
    };
}

} // namespace vrid
