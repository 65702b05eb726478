// Files and functions that a reader takes in at once, and names that say what is inside.
#include <algorithm>
#include <cctype>
#include <filesystem>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/places.hpp"

#include "tests/house/source_files.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

const std::vector<std::string> everywhere{"mesh", "solver", "io", "tests", "benchmarks"};

// Longer when the rule came; they may only shrink, and leave the list when they fit.
const std::map<std::string, std::size_t> long_before{
    {"mesh/assembly.cpp", 366}, {"mesh/face_cuts.cpp", 384}, {"mesh/lines.cpp", 370}};

// A word as such; a folder's name ends with its slash wherever it stands.
bool stands_alone(std::string_view word, std::string_view line) {
    const auto letter = [&](std::size_t at) {
        return at < line.size() &&
               (std::isalnum(static_cast<unsigned char>(line[at])) != 0 || line[at] == '_');
    };
    for (std::size_t at = line.find(word); at != line.npos; at = line.find(word, at + 1)) {
        const bool folder = word.front() == '/';
        if (folder || (!letter(at - 1) && !letter(at + word.size()))) {
            return true;
        }
    }
    return false;
}

struct Function {
    std::string head; // its first line
    std::size_t lines = 0;
};

bool starts_something_else(const std::string& head) {
    static const std::regex other(
        "^(template <[^>]*> )?(inline )?(namespace|struct|class|concept|enum|union|extern)\\b");
    return std::regex_search(head, other);
}

// Lines of raw texts, R"( to )".
std::size_t lines_of_text(std::vector<std::string>::const_iterator line,
                          std::vector<std::string>::const_iterator end) {
    std::size_t count = 0;
    bool inside = false;
    for (; line != end; ++line) {
        inside = inside ? line->find(")\"") == std::string::npos
                        : line->find("R\"(") != std::string::npos;
        count += inside ? 1 : 0;
    }
    return count;
}

// As clang-format writes them: a function's head begins a line, ends with " {", and the next "}" at
// the start of a line is its end. What has no parentheses in its head, or "= {" in it, is data.
std::vector<Function> functions_of(const std::vector<std::string>& lines) {
    std::vector<Function> found;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].empty() || std::string(" }#/)").find(lines[i][0]) != std::string::npos) {
            continue;
        }
        std::string head;
        std::size_t at = i;
        while (at < lines.size() && !lines[at].empty()) {
            head += lines[at] + " ";
            if (lines[at].ends_with("{") || lines[at].ends_with(";") || lines[at].ends_with("}")) {
                break;
            }
            ++at;
        }
        if (head.ends_with(" { ") && head.find('(') != std::string::npos &&
            head.find("= {") == std::string::npos && !starts_something_else(head)) {
            const auto end =
                std::find(lines.begin() + static_cast<std::ptrdiff_t>(at), lines.end(), "}");
            const auto last = static_cast<std::size_t>(end - lines.begin());
            const auto first = lines.begin() + static_cast<std::ptrdiff_t>(i);
            found.push_back({lines[i], last - i + 1 - lines_of_text(first, end)});
            at = last;
        }
        i = at;
    }
    return found;
}

} // namespace

TEST_CASE("functions are found with their length") {
    const std::vector<Function> found =
        functions_of({"namespace a {", "", "const int x{", "};", "int f(int a,", "      int b) {",
                      "    if (a) {", "    }", "}", "", "struct S {", "    int x;", "};",
                      "TEST_CASE(\"x\") {", "}"});
    REQUIRE(found.size() == 2);
    CHECK(found[0].head == "int f(int a,");
    CHECK(found[0].lines == 5);
    CHECK(found[1].lines == 2);
}

TEST_CASE("no source file is longer than 350 lines") {
    for (const std::string& file : files_under(everywhere, {".cpp", ".hpp"})) {
        const auto before = long_before.find(file);
        const std::size_t most = before == long_before.end() ? 350 : before->second;
        CAPTURE(file);
        CHECK(lines_of(file).size() <= most);
        CHECK((before == long_before.end() || lines_of(file).size() > 350));
    }
}

TEST_CASE("no function of the sources is longer than 60 lines, texts in it not counted") {
    std::size_t functions = 0;
    for (const std::string& file : files_under({"mesh", "solver", "io"}, {".cpp", ".hpp"})) {
        for (const Function& function : functions_of(lines_of(file))) {
            ++functions;
            CAPTURE(file, function.head);
            CHECK(function.lines <= 60);
        }
    }
    CHECK(functions > 1000); // or the test sees nothing
}

TEST_CASE("files and folders are named in small letters, by what is inside") {
    const std::regex small("[a-z0-9_]+");
    const std::set<std::string> say_nothing{"util",   "utils",   "common", "core",
                                            "helper", "helpers", "base",   "misc"};
    for (const std::string& file : files_under(everywhere, {".cpp", ".hpp"})) {
        CAPTURE(file);
        for (const auto& part : std::filesystem::path(file)) {
            const std::string stem = part.stem().string();
            CHECK(std::regex_match(stem, small));
            CHECK_FALSE(say_nothing.contains(stem));
        }
    }
}

TEST_CASE("a test is named by its source file or stands beside what it tests") {
    for (const std::string& file : files_under({"tests"}, {".cpp"})) {
        if (!file.ends_with("_test.cpp")) {
            continue;
        }
        const std::string folder = std::filesystem::path(file).parent_path().string().substr(5);
        CAPTURE(file);
        const std::set<std::string> own{"/whole", "/house", "/examples", "/published", "/fuzz"};
        CHECK((own.contains(folder) ||
               std::filesystem::is_directory(std::string(source_dir) + folder)));
    }
}

TEST_CASE("nothing is left to be done in the sources, and no folder of one machine is named") {
    std::vector<std::string> words{"TODO", "FIXME", "XXX"};
    for (const char* folder : {"home", "root", "work"}) {
        words.push_back(std::string("/") + folder + "/");
    }
    for (const std::string& file :
         files_under(everywhere, {".cpp", ".hpp", ".txt", ".md", ".toml", ".py", ".sh"})) {
        if (file == "tests/house/sizes_test.cpp") {
            continue; // the words themselves
        }
        std::size_t number = 0;
        for (const std::string& line : lines_of(file)) {
            ++number;
            for (const std::string& word : words) {
                if (stands_alone(word, line)) {
                    FAIL_CHECK(file << ":" << number << " has " << word);
                }
            }
        }
    }
    CHECK(stands_alone("XXX", "// XXX: later"));
    CHECK_FALSE(stands_alone("XXX", "file.XXXXXX"));
}
