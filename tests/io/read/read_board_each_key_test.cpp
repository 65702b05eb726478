#include <set>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "tests/asserted.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

struct Line {
    std::size_t number = 0;         ///< in the file, from 1
    std::size_t begin = 0, end = 0; ///< bytes of the line with its end
    std::size_t value = 0;          ///< byte where the value begins
    std::string key;
};

/// The lines "key = value" of the demo board whose value ends on the line.
std::vector<Line> key_lines() {
    const std::string& text = demo_board_text();
    std::vector<Line> lines;
    std::size_t number = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = text.find('\n', begin) + 1;
        const std::size_t equals = text.find(" = ", begin);
        ++number;
        const bool whole = text[end - 2] != '[' && text[begin] != ' ' && text[begin] != '[';
        if (equals < end && whole) {
            std::string key = text.substr(begin, equals - begin);
            std::erase(key, '"');
            lines.push_back({number, begin, end, equals + 3, key});
        }
        begin = end;
    }
    return lines;
}

std::string complaint(const std::string& text) {
    return complaint_of([&] { (void)read_text_board(text); });
}

const std::set<std::string> optional_keys{
    "waist_x_mm", "nose_fullness", "tail_fullness", "interpolation", "angle_deg",  "flip",
    "mirror",     "zone",          "note",          "Xt_MPa",        "Xc_MPa",     "Yt_MPa",
    "Yc_MPa",     "S12_MPa",       "S13_MPa",       "S23_MPa",       "all",        "nu12",
    "x_mm",       "flange",        "setback_mm",    "resin_gsm",     "nose-twist", "mass"};

bool may_be_absent(const std::string& key) {
    const bool tolerance = key.find('.') != std::string::npos; // each entry is optional
    return tolerance || optional_keys.contains(key);
}

} // namespace

TEST_CASE("without any one of its keys a board is read, if it is optional, or the key is named") {
    const auto lines = key_lines();
    REQUIRE(lines.size() > 70);
    for (const Line& line : lines) {
        std::string text = demo_board_text();
        text.erase(line.begin, line.end - line.begin);
        const std::string all = complaint(text);
        INFO(line.number << ": " << line.key << "\n" << all);
        CHECK((may_be_absent(line.key) ? all.empty() || all.find(line.key) != std::string::npos
                                       : all.find(line.key) != std::string::npos));
    }
}

TEST_CASE("any key with a value of the wrong kind or size is named with its line") {
    constexpr std::size_t each = 64 / few_with_asserts(64);
    const std::vector<Line> lines = key_lines();
    for (std::size_t i = 0; i < lines.size(); i += each) {
        const Line& line = lines[i];
        for (const char* value : {"nan", "inf", "-1e300", "1e300", "-7777777", "[]", "[[]]",
                                  "{ odd = 1 }", "\"\"", "2020-01-01", "12:30:00"}) {
            std::string text = demo_board_text();
            text.replace(line.value, line.end - 1 - line.value, value);
            const std::string all = complaint(text);
            const std::string place = "board.toml:" + std::to_string(line.number) + ":";
            INFO(line.key << " = " << value << "\n" << all);
            CHECK(all.find(place) != std::string::npos);
            CHECK(all.find(line.key) != std::string::npos);
        }
    }
}
