#include "io/materials/material_library.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <vector>

#include "io/materials/read_material.hpp"
#include "io/materials/shipped_materials.hpp"
#include "io/materials/tolerances.hpp"
#include "io/toml/read_text.hpp"
#include "mesh/board/material_keys.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

bool is_folder(const fs::path& path) {
    std::error_code ignored;
    return fs::is_directory(path, ignored);
}

std::vector<std::string> library_files(const std::string& folder) {
    std::vector<std::string> files;
    std::error_code failed;
    for (fs::directory_iterator at(folder, failed), end; !failed && at != end;
         at.increment(failed)) {
        if (at->path().extension() == ".toml") {
            files.push_back(at->path().string());
        }
    }
    if (failed) {
        throw InputError(folder, "the material library cannot be read: " + failed.message());
    }
    std::ranges::sort(files); // the order of a folder is not fixed
    return files;
}

// The program ships no number that it cannot account for.
void check_sources(const Material& material, const TableReader& table) {
    for (const MaterialValue& value : material_values(material)) {
        if (table.has(value.key) && !material.source.contains(value.key)) {
            note_problem(table.reading(), table.place(value.key),
                         table.path() + "." + value.key + ": has no source; accepted: an entry " +
                             value.key + " or all in [" + table.path() + ".source]");
        }
    }
}

void read_materials(MaterialLibrary& library, TableReader& root) {
    auto table = root.table_if("material");
    if (!table) {
        return;
    }
    for (auto& [name, entry] : table->entries("material")) {
        Material material = read_material(name, entry);
        check_sources(material, entry);
        if (!library.materials.emplace(name, std::move(material)).second) {
            table->problem(name, "the library has this material already, in another file");
        }
    }
    table->finish();
}

void read_fabrics(MaterialLibrary& library, TableReader& root) {
    auto table = root.table_if("fabric");
    if (!table) {
        return;
    }
    for (auto& [name, entry] : table->entries("fabric")) {
        if (!library.fabrics.emplace(name, read_fabric(name, entry, library.materials)).second) {
            table->problem(name, "the library has this fabric already, in another file");
        }
    }
    table->finish();
}

struct LibraryFile {
    std::string name, text;
};

/// \param place of the files, for messages
MaterialLibrary read_files(const std::vector<LibraryFile>& files, const std::string& place) {
    MaterialLibrary library;
    std::vector<toml::table> parsed; // outlive the readers
    std::vector<Reading> readings;
    for (const LibraryFile& file : files) {
        readings.push_back({file.name, {}, {}, {}});
        parsed.push_back(parse_toml(file.text, readings.back()));
    }
    std::vector<TableReader> roots;
    for (std::size_t i = 0; i < parsed.size(); ++i) {
        roots.push_back(TableReader::root(readings[i], parsed[i]));
        read_materials(library, roots.back());
    }
    std::vector<Problem> problems;
    for (std::size_t i = 0; i < parsed.size(); ++i) {
        read_fabrics(library, roots[i]); // after all materials: fabrics name them
        read_default_tolerance(library.tolerance, roots[i]);
        roots[i].finish();
        problems.insert(problems.end(), readings[i].problems.begin(), readings[i].problems.end());
    }
    if (problems.empty() && library.materials.empty()) {
        problems.push_back({place, "holds no material; accepted: a folder of *.toml files with "
                                   "[material.NAME] tables"});
    }
    throw_if_any(std::move(problems));
    return library;
}

} // namespace

std::string material_library_folder() {
    const char* named = std::getenv("VRID_MATERIALS");
    if (named == nullptr || *named == '\0') {
        return "";
    }
    if (!is_folder(named)) {
        throw InputError("VRID_MATERIALS", "found '" + std::string(named) +
                                               "', which is no folder; accepted: the folder of a "
                                               "material library");
    }
    return named;
}

MaterialLibrary read_material_library(const std::string& folder) {
    std::vector<LibraryFile> files;
    for (const std::string& file : library_files(folder)) {
        files.push_back({file, read_text(file)});
    }
    MaterialLibrary library = read_files(files, folder);
    library.folder = folder;
    return library;
}

MaterialLibrary load_material_library() {
    if (const std::string folder = material_library_folder(); !folder.empty()) {
        return read_material_library(folder);
    }
    std::vector<LibraryFile> files;
    for (const ShippedFile& file : shipped_materials()) {
        files.push_back({std::string(file.name), std::string(file.text)});
    }
    return read_files(files, "the materials of vrid");
}

} // namespace vrid
