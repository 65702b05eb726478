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

namespace {

// The name that a line at the margin of an unnamed namespace gives away, a function's with the
// types it takes; empty if it gives none. clang-format puts every such line at the margin.
std::string private_name(const std::string& line) {
    static const std::regex type(R"(^(?:struct|class|enum class|enum) (\w+).*)");
    static const std::regex value(R"(^(?:const|constexpr) [^({=]*?(\w+)(?:\{| =|;).*)");
    static const std::regex function(R"(^\w[\w:<>,&\* \[\]]*[ &\*](\w+)\((.*))");
    static const std::regex parameter(R"( ?\b\w+(?= = [^,]*|,|\)|$))");
    std::smatch found;
    if (std::regex_match(line, found, type) || std::regex_match(line, found, value)) {
        return found[1];
    }
    if (std::regex_match(line, found, function)) {
        const std::string list = found[2];
        return found[1].str() + "(" + std::regex_replace(list, parameter, "");
    }
    return "";
}

} // namespace

// With VRID_UNITY the files of a folder are compiled together, in what groups the next file
// decides.
TEST_CASE("a private name is given once in a folder") {
    std::map<std::string, std::set<std::string>> homes; // by folder and name
    for (const std::string& file :
         files_under({"mesh", "solver", "io", "tests", "benchmarks/convergence",
                      "benchmarks/measure", "benchmarks/measured", "benchmarks/published"},
                     {".cpp"})) {
        bool inside = false;
        for (const std::string& line : lines_of(file)) {
            inside = line == "namespace {" || (inside && !line.starts_with("} // namespace"));
            const std::string name = inside ? private_name(line) : "";
            if (!name.empty()) {
                homes[file.substr(0, file.rfind('/')) + ": " + name].insert(file);
            }
        }
    }
    CHECK(homes.size() > 2000);
    for (const auto& [name, files] : homes) {
        CAPTURE(name, *files.begin(), *files.rbegin());
        CHECK(files.size() == 1);
    }
}

TEST_CASE("a private alias means one type in a folder") {
    const std::regex alias(R"(^using (\w+) = (.*);.*)");
    std::map<std::string, std::set<std::string>> meant; // by folder and name
    for (const std::string& file :
         files_under({"mesh", "solver", "io", "tests", "benchmarks"}, {".cpp"})) {
        for (const std::string& line : lines_of(file)) {
            std::smatch found;
            if (std::regex_match(line, found, alias)) {
                meant[file.substr(0, file.rfind('/')) + ": " + found[1].str()].insert(found[2]);
            }
        }
    }
    CHECK(meant.size() > 10);
    for (const auto& [name, types] : meant) {
        CAPTURE(name, *types.begin(), *types.rbegin());
        CHECK(types.size() == 1);
    }
}
