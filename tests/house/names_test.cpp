#include <map>
#include <regex>
#include <set>
#include <string>

#include <catch2/catch.hpp>

#include "tests/house/source_files.hpp"

using namespace vrid::tests;

// Two types of one name in one namespace, each in files that never meet: the linker takes the
// destructor of one for the other's.
TEST_CASE("no two headers define a type of the same name") {
    const std::regex definition(R"(^(?:struct|class|enum class|enum) (\w+)[^;]*\{$)");
    std::map<std::string, std::set<std::string>> homes;
    for (const std::string& file : files_under({"mesh", "solver", "io"}, {".hpp"})) {
        for (const std::string& line : lines_of(file)) {
            std::smatch found;
            if (std::regex_match(line, found, definition)) {
                homes[found[1]].insert(file);
            }
        }
    }
    CHECK(homes.size() > 200);
    for (const auto& [name, files] : homes) {
        CAPTURE(name, *files.begin(), *files.rbegin());
        CHECK(files.size() == 1);
    }
}
