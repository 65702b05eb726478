#include "io/read/read_tables.hpp"

#include <filesystem>

#include "io/materials/read_material.hpp"
#include "io/toml/read_text.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

/// The way from the board file to the file at hand, and what was read on it.
struct Included {
    Stock& stock;
    std::vector<fs::path> way;
    std::vector<std::string> texts;
};

fs::path one_name(const fs::path& path) {
    std::error_code ignored;
    const fs::path canonical = fs::weakly_canonical(path, ignored);
    return canonical.empty() ? path : canonical;
}

void take_include(TableReader& table, const fs::path& folder, Included& included);

// A file of materials and fabrics, and what it includes.
void take_file(const std::string& text, const std::string& file, Reading& reading,
               Included& included) {
    const toml::table parsed = parse_toml(text, reading);
    TableReader root = TableReader::root(reading, parsed);
    take_include(root, fs::path(file).parent_path(), included);
    read_own_stock(root, included.stock);
    root.finish(); // nothing else may stand there
}

void take_include(TableReader& table, const fs::path& folder, Included& included) {
    const std::string name = table.text_if("include");
    if (name.empty()) {
        return;
    }
    const fs::path path = folder / name;
    if (contains(included.way, one_name(path))) {
        table.problem("include", "the file includes itself, by way of others or directly; "
                                 "accepted: files that do not include each other in a circle");
        return;
    }
    included.way.push_back(one_name(path));
    Reading reading{path.string(), {}, {}, {}};
    try {
        std::string text = read_text(path.string(), table.place("include"));
        take_file(text, path.string(), reading, included);
        included.texts.push_back(std::move(text));
    } catch (const InputError& error) { // some of the problems of the board file
        reading.problems.insert(reading.problems.end(), error.problems().begin(),
                                error.problems().end());
    }
    included.way.pop_back();
    for (Problem& problem : reading.problems) {
        note_problem(table.reading(), std::move(problem.place), std::move(problem.message));
    }
    for (Problem& warning : reading.warnings) {
        note_warning(table.reading(), std::move(warning.place), std::move(warning.message));
    }
}

} // namespace

// An entry with problems counts as known, so that its users are not problems too.
void read_own_stock(TableReader& root, Stock& stock) {
    if (auto table = root.table_if("material")) {
        for (auto& [name, entry] : table->entries("material")) {
            stock.materials[name] = read_material(name, entry);
            stock.no_expansion.erase(name);
            if (!entry.has("alpha1_1e6K")) {
                stock.no_expansion[name] = entry.place();
            }
        }
        table->finish();
    }
    if (auto table = root.table_if("fabric")) {
        for (auto& [name, entry] : table->entries("fabric")) {
            stock.fabrics[name] = read_fabric(name, entry, stock.materials);
        }
        table->finish();
    }
}

std::vector<std::string> read_included(TableReader& root, const std::string& file,
                                       const std::string& folder, Stock& stock) {
    Included included{stock, {one_name(file)}, {}};
    take_include(root, folder, included);
    return std::move(included.texts);
}

} // namespace vrid
