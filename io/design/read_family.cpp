#include "io/design/read_family.hpp"

#include <algorithm>
#include <set>

#include "io/materials/design_paths.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/design/line_kinds.hpp"

namespace vrid {

namespace {

constexpr const char* waist_path = "planform.waist_width_mm";

void read_set(TableReader& table, FamilySize& size, const std::vector<std::string>& paths) {
    auto inner = table.table_if("set");
    if (!inner) {
        return;
    }
    for (const ValueEntry& entry : inner->flat_values()) {
        if (!contains(paths, entry.path)) {
            note_problem(table.reading(), entry.place,
                         "size.set: found \"" + entry.path + "\", no design value of this board" +
                             did_you_mean(entry.path, paths));
            continue;
        }
        size.set.push_back({entry.path, entry.value, entry.place});
    }
}

void read_stretch(TableReader& table, FamilySize& size, const Board& board) {
    if (!table.has("stretch")) {
        return;
    }
    for (const std::string& pattern : table.texts("stretch")) {
        const std::vector<std::string> paths = covered_paths(pattern, number_paths(board));
        const bool stations = std::ranges::all_of(
            paths, [&](const auto& path) { return is_station(find_design(board, path)->id); });
        if (!stations) {
            table.problem("stretch", "found \"" + pattern + "\", which covers more than stations");
        }
        size.stretch.push_back(pattern); // one that this board has nothing of stretches nothing
    }
}

FamilySize read_size(TableReader& table, const Board& board,
                     const std::vector<std::string>& paths) {
    FamilySize size;
    size.place = table.place();
    size.name = table.text("name");
    const bool plain = std::ranges::all_of(size.name, [](unsigned char c) {
        return std::isalnum(c) != 0 || c == '-' || c == '_' || c == '.';
    });
    if (!plain || size.name.starts_with('.')) {
        table.wrong("name", "letters, digits, - and _: it becomes a file's name");
    }
    size.rider = table.number_if("rider_kg");
    size.sidecut = table.number_if("sidecut_m");
    read_set(table, size, paths);
    read_stretch(table, size, board);
    if (size.sidecut && !board.planform.shape) {
        table.problem("sidecut_m", "only an outline by its widths and lengths has a waist to move");
    }
    const bool waist =
        std::ranges::any_of(size.set, [](const Change& one) { return one.path == waist_path; });
    if (size.sidecut && waist) {
        table.problem("sidecut_m", "the waist width follows from it; accepted: one of the two");
    }
    table.finish();
    return size;
}

} // namespace

Family read_family(TableReader& root, const Board& board) {
    Family family;
    if (auto approved = root.table_if("approved")) {
        family.approved_rider = approved->number_if("rider_kg");
        approved->finish();
    }
    const std::vector<std::string> paths = design_value_paths(board);
    std::set<std::string> names;
    for (TableReader& table : root.tables("size")) {
        FamilySize size = read_size(table, board, paths);
        if (!size.name.empty() && !names.insert(size.name).second) {
            table.problem("name", "found \"" + size.name + "\" twice; each size writes its file");
        }
        family.sizes.push_back(std::move(size));
    }
    return family;
}

std::map<std::string, double> read_scale(TableReader& target, const Family& family,
                                         const Board& board) {
    std::map<std::string, double> powers;
    auto table = target.table_if("scale");
    if (!table) {
        return powers;
    }
    const std::vector<std::string> paths = number_paths(board);
    for (const ValueEntry& entry : table->flat_values()) {
        const auto* power = std::get_if<double>(&entry.value);
        const bool rider = entry.path == "rider_kg";
        if (power == nullptr || (!rider && covered_paths(entry.path, paths).size() != 1)) {
            note_problem(target.reading(), entry.place,
                         "target.scale: found \"" + entry.path +
                             "\"; accepted: rider_kg or one design value, and a power");
            continue;
        }
        powers[entry.path] = *power;
        for (const FamilySize& size : family.sizes) {
            if (rider && (!size.rider || !family.approved_rider)) {
                note_problem(target.reading(), size.rider ? entry.place : size.place,
                             "size: rider_kg is missing" +
                                 std::string(size.rider ? " in [approved]" : "") +
                                 ", and a target scales by it");
                break;
            }
        }
    }
    if (target.text_if("same_as") != same_as_approved || family.sizes.empty()) {
        target.problem("scale", "goes with same_as = \"approved\" and [[size]] only");
    }
    return powers;
}

void check_family(const Family& family, const std::vector<FreeValue>& free, Reading& reading) {
    for (const FamilySize& size : family.sizes) {
        for (const FreeValue& value : free) {
            const bool outline = std::ranges::any_of(
                value.names, [](const auto& name) { return name.starts_with("planform."); });
            if (size.sidecut && outline) {
                note_problem(reading, value.place,
                             "free.value: " + value.value + " beside sidecut_m of the size at " +
                                 size.place + ": both set the same value");
                return;
            }
        }
    }
}

} // namespace vrid
