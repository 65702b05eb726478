// A file's test is found at the same path under tests/, or the list says which one holds it.
#include <filesystem>
#include <map>
#include <sstream>
#include <string>

#include <catch2/catch.hpp>

#include "tests/places.hpp"

#include "tests/house/source_files.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

bool is_there(const std::string& file) {
    return std::filesystem::exists(std::filesystem::path(source_dir) / file);
}

std::string mirrored(const std::string& source) {
    return "tests/" + source.substr(0, source.rfind('.')) + "_test.cpp";
}

// By file, the test that holds it. The list may only shrink.
std::map<std::string, std::string> tested_elsewhere() {
    std::map<std::string, std::string> rows;
    for (const std::string& line : lines_of("tests/house/tested_elsewhere.txt")) {
        std::istringstream words(line);
        std::string file;
        std::string test;
        if (words >> file >> test && !file.starts_with('#')) {
            rows[file] = test;
        }
    }
    return rows;
}

} // namespace

TEST_CASE("every source of more than forty lines has its test at the mirrored path or a row that "
          "names another") {
    constexpr std::size_t most_rows = 113; // lower it with every row that goes
    auto rows = tested_elsewhere();
    CHECK(rows.size() <= most_rows);
    for (const auto& [file, test] : rows) {
        CAPTURE(file, test);
        CHECK(is_there(file));
        CHECK(is_there(test));
    }
    for (const std::string& file : files_under({"mesh", "solver", "io"}, {".cpp"})) {
        constexpr std::size_t long_enough = 40;
        const bool has_row = rows.erase(file) > 0;
        const bool wants_test = lines_of(file).size() > long_enough;
        const bool has_test = is_there(mirrored(file));
        CAPTURE(file, mirrored(file), has_row);
        CHECK(has_row == (wants_test && !has_test));
    }
}
