// What DEVELOPERS.md and README.md say of the repository, held against the repository.
#include <algorithm>
#include <filesystem>
#include <iterator>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "io/verbs/verb.hpp"
#include "tests/house/source_files.hpp"
#include "tests/places.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

namespace fs = std::filesystem;

// The first cells of the table whose title row begins so, without the ticks.
std::vector<std::string> first_column(const std::string& file, const std::string& title) {
    std::vector<std::string> cells;
    bool inside = false;
    for (const std::string& line : lines_of(file)) {
        if (line.starts_with("| " + title + " |")) {
            inside = true;
        } else if (inside && !line.starts_with("|")) {
            break;
        } else if (inside && !line.starts_with("|-")) {
            const std::string cell = line.substr(2, line.find(" |", 2) - 2);
            cells.push_back(std::regex_replace(cell, std::regex("`"), ""));
        }
    }
    return cells;
}

std::set<std::string> folders_of_sources() {
    std::set<std::string> folders;
    for (const std::string& file : files_under({"mesh", "solver", "io"}, {".cpp", ".hpp"})) {
        if (file != "io/main.cpp") { // the program stands above all rooms
            folders.insert(fs::path(file).parent_path().string() + "/");
        }
    }
    return folders;
}

// Packages that a line of the README installs.
std::set<std::string> packages_in(const std::string& line) {
    const std::string before = "--no-install-recommends ";
    const std::size_t from = line.find(before) + before.size();
    std::istringstream words(line.substr(from, line.find(" &&", from) - from));
    return {std::istream_iterator<std::string>(words), {}};
}

} // namespace

TEST_CASE("DEVELOPERS.md is under 200 lines") {
    CHECK(lines_of("DEVELOPERS.md").size() < 200);
}

TEST_CASE("the map in DEVELOPERS.md names every folder of the sources, and only what is there") {
    std::string rooms;
    for (const std::string& room : first_column("DEVELOPERS.md", "room")) {
        rooms += room + ", ";
    }
    for (const std::string& folder : folders_of_sources()) {
        CAPTURE(folder);
        CHECK(rooms.find(folder + ",") != std::string::npos);
    }
    std::istringstream words(rooms);
    for (std::string room; std::getline(words, room, ',') && room != " ";) {
        const std::string folder = room.substr(room.find_first_not_of(' '));
        CAPTURE(folder);
        CHECK(fs::is_directory(fs::path(source_dir) / folder));
    }
}

TEST_CASE("README's commands install the packages that DEVELOPERS.md gives a reason for") {
    const std::vector<std::string> listed = first_column("DEVELOPERS.md", "package");
    std::set<std::string> wanted(listed.begin(), listed.end());
    wanted.insert({"clang", "cmake", "ninja-build"});
    int commands = 0;
    for (const std::string& line : lines_of("README.md")) {
        if (line.starts_with("$(command -v sudo) apt-get update")) {
            std::set<std::string> found = packages_in(line);
            if (++commands == 1) {
                found.insert({"catch2", "chromium", "chromium-driver", "doxygen",
                              "python3-meshio"}); // tests only
            }
            CHECK(found == wanted);
        }
    }
    CHECK(commands == 2);
}

TEST_CASE("README's table of verbs is that of the program") {
    const std::vector<std::string> rows = first_column("README.md", "verb");
    std::vector<std::string> names;
    for (const vrid::Verb& verb : vrid::verbs()) {
        names.push_back(verb.name);
    }
    std::vector<std::string> listed;
    for (const std::string& row : rows) {
        listed.push_back(row.substr(5, row.find(' ', 5) - 5)); // after "vrid "
    }
    std::sort(listed.begin(), listed.end());
    std::sort(names.begin(), names.end());
    CHECK(listed == names);
}
