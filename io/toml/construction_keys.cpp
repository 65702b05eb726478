#include "io/toml/construction_keys.hpp"

namespace vrid {

namespace {

using enum KeyForm;

constexpr Bounds none{};
constexpr Bounds anywhere{-5000, 5000}; // a station or a point [mm]
constexpr Bounds change{-100, 100};     // of a core's thickness [mm]

const std::vector<BoardKey> rows{
    {"", "include", text, none, "", "a file beside this one with [material.*] and [fabric.*] only",
     "\"fabrics.toml\""},
    {"core", "strips_left", tables, none, "required with strips_right",
     "instead of strips: those of the left half (y > 0)",
     "[{ material = \"poplar\", width_mm = 18 }]"},
    {"core", "strips_right", tables, none, "required with strips_left",
     "instead of strips: those of the right half (y < 0), from the centre line too",
     "[{ material = \"ash\", width_mm = 18 }]"},
    {"core", "cross_mm", stations, change, "",
     "[y, change of thickness] across, added to thickness_mm; y signed, linear between",
     "[[-130, -1.5], [-110, 0], [110, 0], [130, -1.5]]"},
    {"core.strips", "fill", text, none, "the first strip's material", "material where x_mm ends",
     "\"poplar\""},
    {"layer", "zones", tables, none, "", "instead of zone: several, the layer is in each",
     "[{ x_mm = [-500, -300] }, { x_mm = [300, 500] }]"},
    {"layer", "inlay", flag, none, "false",
     "true: let into the core, which is thinner there; the board keeps its height", "false"},
    {"layer.zone", "polygon_mm", points, anywhere, "",
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

} // namespace

std::vector<BoardKey> construction_keys() {
    return rows;
}

std::vector<BoardKey> with_rows(std::vector<BoardKey> rows, const std::vector<BoardKey>& more) {
    for (const BoardKey& row : more) {
        const std::string_view outer = row.table.substr(0, row.table.find('.'));
        auto after = rows.end();
        for (auto at = rows.begin(); at != rows.end(); ++at) {
            if (at->table == row.table) {
                after = at;
            }
        }
        for (auto at = rows.begin(); after == rows.end() && at != rows.end(); ++at) {
            if (is_in(at->table, outer) &&
                (at + 1 == rows.end() || !is_in((at + 1)->table, outer))) {
                after = at;
            }
        }
        rows.insert(after == rows.end() ? after : after + 1, row);
    }
    return rows;
}

std::vector<BoardKey> with_alike_tables(std::vector<BoardKey> rows) {
    add_alike(rows, "core.strips_left", "core.strips");
    add_alike(rows, "core.strips_right", "core.strips");
    add_alike(rows, "layer.zones", "layer.zone");
    return rows;
}

} // namespace vrid
