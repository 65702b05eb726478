#include <algorithm>
#include <cmath>
#include <filesystem>
#include <set>

#include "io/batch/suite.hpp"
#include "io/read/read_tables.hpp"
#include "io/toml/read_text.hpp"
#include "io/toml/table_reader.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> read_boards(TableReader& root, const std::string& folder) {
    std::set<std::string> found;
    for (const std::string& pattern : root.texts("boards")) {
        std::vector<std::string> no_files;
        const std::vector<std::string> files = matching_files(pattern, folder, &no_files);
        for (const std::string& other : no_files) {
            root.warn("boards", "'" + other + "' fits \"" + pattern +
                                    "\" but is no file (a folder, a pipe); it is left out");
        }
        if (files.empty() && !pattern.empty()) {
            root.problem("boards", "no file fits \"" + pattern + "\" (relative to '" +
                                       (folder.empty() ? "." : folder) + "')");
        }
        found.insert(files.begin(), files.end());
    }
    return {found.begin(), found.end()};
}

std::vector<std::string> read_cases(TableReader& root) {
    const std::vector<std::string> known = each_of(bench_cases(), &CaseInfo::name);
    std::vector<std::string> chosen;
    bool all = false;
    for (const std::string& name : root.texts("cases")) {
        all = all || name == "all";
        if (name != "all" && !contains(known, name)) {
            root.problem("cases", "no case is named \"" + name + "\"" + did_you_mean(name, known));
        }
        chosen.push_back(name);
    }
    return all ? std::vector<std::string>{} : chosen;
}

std::vector<double> read_travels(TableReader& root) {
    std::vector<double> travels;
    if (root.has("bend_mm")) {
        for (const double travel : root.number_list("bend_mm")) {
            travels.push_back(travel);
        }
    }
    sort_distinct(travels);
    return travels;
}

/// A value of the map, each only once: its conditions are told apart by their values.
std::vector<double> map_values(TableReader& table, const char* key) {
    const std::vector<double> values = table.number_list(key);
    if (std::set<double>(values.begin(), values.end()).size() < values.size()) {
        table.wrong(key, "every value once");
    }
    return values;
}

void read_edge(Suite& suite, TableReader& root) {
    auto table = root.table_if("edge");
    if (!table) {
        return;
    }
    const std::vector<double> angles = map_values(*table, "angle_deg");
    const std::vector<double> forces = map_values(*table, "force_N");
    const std::vector<double> hardness = map_values(*table, "hardness_Npmm3");
    const bool bent = table->flag_or("bent", false);
    table->finish();
    for (const double angle : angles) { // neighbours in the list are neighbours in the map
        for (const double H : hardness) {
            for (const double force : forces) {
                suite.edge.push_back({Side::left, angle, force, H, 0.5, SnowLaw::volume, bent});
            }
        }
    }
}

void read_variants(Suite& suite, TableReader& root) {
    suite.variants.push_back({});
    std::set<std::string> names;
    for (TableReader& table : root.tables("variant")) {
        Variant variant;
        variant.name = table.text("name");
        if (!variant.name.empty() && !names.insert(variant.name).second) {
            table.wrong("name", "a name that no other variant has");
        }
        if (auto set = table.table_if("set")) {
            for (const ValueEntry& entry : set->flat_values()) {
                variant.changes.push_back({entry.path, entry.value, entry.place});
            }
        }
        if (variant.changes.empty()) {
            table.wrong("set", "a table of design values, { \"core.thickness_scale\" = 1.03 }");
        }
        table.finish();
        suite.variants.push_back(std::move(variant));
    }
}

void read_drift(Suite& suite, TableReader& root, const std::string& folder) {
    if (auto table = root.table_if("drift")) {
        const std::string baseline = table->text("baseline");
        suite.drift = DriftSpec{(fs::path(folder) / baseline).lexically_normal().string(),
                                table->number("percent")};
        table->finish();
    }
}

} // namespace

Suite read_suite(const std::string& path) {
    Reading reading{path, {}, {}, {}};
    const toml::table parsed = parse_toml(read_text(path), reading);
    TableReader root = TableReader::root(reading, parsed);
    const std::string folder = fs::path(path).parent_path().string();
    Suite suite;
    suite.file = path;
    const double format = root.number("format");
    if (!std::isnan(format) && format != 1) {
        root.wrong("format", "1");
    }
    suite.name = root.text("name");
    suite.boards = read_boards(root, folder);
    suite.cases = read_cases(root);
    suite.bend = read_travels(root);
    suite.strength = root.flag_or("strength", false);
    read_edge(suite, root);
    read_variants(suite, root);
    read_limits(suite.limits, root);
    read_drift(suite, root, folder);
    root.finish();
    throw_if_any(std::move(reading.problems));
    suite.warnings = std::move(reading.warnings);
    return suite;
}

} // namespace vrid
