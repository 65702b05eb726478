#include "io/read/read_tables.hpp"

namespace vrid {

void read_limits(std::map<std::string, Limit>& limits, TableReader& root) {
    auto table = root.table_if("limits");
    if (!table) {
        return;
    }
    for (auto& [name, entry] : table->entries("limits")) {
        const Limit limit{entry.number_if("min"), entry.number_if("max")};
        if (!entry.has("min") && !entry.has("max")) {
            table->problem(name, "accepted: min, max or both");
        } else if (limit.min && limit.max && *limit.min > *limit.max) {
            entry.wrong("max", "a number from min up");
        }
        entry.finish();
        limits[name == "sidecut-radius" ? "sidecut_radius" : name] = limit; // its older name
    }
    table->finish();
}

} // namespace vrid
