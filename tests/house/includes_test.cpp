// The house rules that a reader of DEVELOPERS.md is told about, each kept by a test.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/places.hpp"

#include "tests/house/source_files.hpp"

using namespace vrid;
using vrid::tests::files_under;

namespace {

namespace fs = std::filesystem;

// A file includes only its own room and earlier ones.
const std::vector<std::string> rooms{
    "mesh/board",      "mesh",         "solver/laminate", "solver/element",  "solver/system",
    "solver/response", "solver/cases", "solver/cooling",  "solver/strength", "solver",
    "solver/design",   "solver/lot",   "solver/shop",     "io/write",        "io/toml",
    "io/materials",    "io/read",      "io/design",       "io/session",      "io/report",
    "io/sheet",        "io/live",      "io/batch",        "io/verbs"};

std::size_t room_of(const std::string& path) {
    std::string folder = fs::path(path).parent_path().string();
    while (!folder.empty()) {
        const auto found = std::find(rooms.begin(), rooms.end(), folder);
        if (found != rooms.end()) {
            return static_cast<std::size_t>(found - rooms.begin());
        }
        folder = fs::path(folder).parent_path().string();
    }
    return rooms.size();
}

std::vector<std::string> source_files() {
    return files_under({"mesh", "solver", "io"}, {".hpp", ".cpp"});
}

std::string text_of(const std::string& path) {
    std::ifstream in(fs::path(source_dir) / path);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::set<std::string> matches(const std::string& text, const std::regex& pattern) {
    std::set<std::string> found;
    for (auto it = std::sregex_iterator(text.begin(), text.end(), pattern);
         it != std::sregex_iterator(); ++it) {
        found.insert((*it)[1]);
    }
    return found;
}

} // namespace

TEST_CASE("includes run one way through the rooms, and name files from the top") {
    for (const std::string& file : source_files()) {
        if (file == "io/main.cpp") {
            continue; // the program: it stands above all rooms
        }
        for (const std::string& include :
             matches(text_of(file), std::regex("#include \"([^\"]+)\""))) {
            CAPTURE(file, include);
            CHECK(fs::exists(fs::path(source_dir) / include));
            CHECK(room_of(include) <= room_of(file));
        }
    }
}

// Benchmarks are not built by the test command: a header that moved would be missed there last.
TEST_CASE("what tests and benchmarks include is there") {
    for (const std::string& file : files_under({"tests", "benchmarks"}, {".hpp", ".cpp"})) {
        for (const std::string& include :
             matches(text_of(file), std::regex("#include \"([^\"]+)\""))) {
            CAPTURE(file, include);
            const fs::path beside = (fs::path(source_dir) / file).parent_path() / include;
            CHECK((fs::exists(fs::path(source_dir) / include) || fs::exists(beside)));
        }
    }
}

TEST_CASE("a library is included only in its home") {
    const std::vector<std::pair<std::string, std::string>> homes{
        {"gmsh", "mesh/"},
        {"toml++", "io/"},
        {"vtk", "io/write/vtk/"},
        {"cblas", "solver/system/"},
        {"boost/math/quadrature", "mesh/board/"},
        {"boost/math/distributions", "solver/lot/"},
        {"boost/math/tools", "solver/lot/"},
        {"nlopt", "solver/design/"},
        {"polyclipping", "solver/shop/"},
        {"httplib", "io/live/"},
        {"CLI/", "io/"},
        {"nlohmann", "io/"}};
    std::set<std::string> seen;
    for (const std::string& file : source_files()) {
        const std::string text = text_of(file);
        for (const auto& [library, home] : homes) {
            if (text.find("#include <" + library) == std::string::npos) {
                continue;
            }
            CAPTURE(file, library);
            CHECK(file.rfind(home, 0) == 0);
            seen.insert(library);
        }
    }
    CHECK(seen.size() == homes.size()); // a name that no file includes guards nothing
}

TEST_CASE("every source key in the code stands in DEVELOPERS.md, and every key there is used") {
    const std::regex key("\\[([A-Z][a-z][A-Za-z]{3,})\\]");
    std::set<std::string> used;
    for (const std::string& file : source_files()) {
        const std::set<std::string> here = matches(text_of(file), key);
        used.insert(here.begin(), here.end());
    }
    const std::string developers = text_of("DEVELOPERS.md");
    const std::set<std::string> listed =
        matches(developers, std::regex("\n- \\[([A-Z][a-z][A-Za-z]{3,})\\]"));
    CHECK(used == listed);
}

TEST_CASE("mesh and solver know no path of a file and no unit of one") {
    // "core.thickness_mm", "layer.": a table and a dot; "_mm", "_gsm": the endings of keys. The
    // keys of materials stand in one table, with where their values live.
    const std::regex path("\"(core|layer|fabric|material|mass_only|planform|edge)\\.[a-z]*");
    const std::regex unit("\"[a-z_]*_(mm|deg|gsm|MPa|kgm3|Npmm2|Npmm3)\"");
    for (const std::string& file : source_files()) {
        const bool keys = file.rfind("mesh/board/material_keys", 0) == 0;
        if (file.rfind("io/", 0) == 0 || keys) {
            continue;
        }
        const std::string code = std::regex_replace(text_of(file), std::regex("//[^\n]*"), "");
        CAPTURE(file);
        CHECK_FALSE(std::regex_search(code, path));
        CHECK_FALSE(std::regex_search(code, unit));
    }
}

TEST_CASE("no factor between SI and bench or file units stands outside io/write/units") {
    // degrees: 180 with pi; the powers of ten of the units are named there too
    const std::regex degrees("pi[^;\n]*180|180[^;\n]*pi");
    for (const std::string& file : source_files()) {
        if (file.rfind("io/", 0) != 0 || file.rfind("io/write/units", 0) == 0) {
            continue; // the library is SI; an angle there is a constant of geometry
        }
        CAPTURE(file);
        CHECK_FALSE(std::regex_search(text_of(file), degrees));
    }
}
