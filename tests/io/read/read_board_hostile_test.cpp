#include <algorithm>
#include <random>
#include <string>

#include <catch2/catch.hpp>

#include "io/read/read_board.hpp"
#include "io/toml/read_text.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

const std::string head = "format = 1\nname = \"a\"\n";

/// All that is wrong with the text, one problem a line; empty if nothing is.
std::string hostile_complaint(const std::string& text) {
    return complaint_of([&] { (void)read_text_board(text); });
}

std::string file_complaint(const std::string& path) {
    return complaint_of([&] { (void)read_board(path, shipped_library()); });
}

std::string repeated(const std::string& piece, int times) {
    std::string all;
    for (int i = 0; i < times; ++i) {
        all += piece;
    }
    return all;
}

using Catch::Contains;
using Catch::StartsWith;

} // namespace

TEST_CASE("a file that is no board file is refused with its name") {
    const TestFolder folder("hostile");
    CHECK_THAT(file_complaint(folder.path() + "/none.toml"), Contains("none.toml: no such file"));
    CHECK_THAT(file_complaint(folder.path()), Contains("is a folder"));
    CHECK_THAT(file_complaint("/dev/zero"), Contains("/dev/zero: is not a regular file"));
    CHECK_THAT(file_complaint(""), Contains("no such file"));
    CHECK_THAT(file_complaint(std::string(100000, 'x')), Contains("cannot be read"));
    CHECK_THAT(file_complaint(folder.write("large.toml", std::string(10 << 20, '#'))),
               Contains("large.toml: is larger than 1 MiB"));
    CHECK_THAT(file_complaint(folder.write("binary.toml", std::string("\x7f"
                                                                      "ELF\0\1\2\3",
                                                                      8))),
               Contains("binary.toml:1:1: found the control character 0x7f"));
    CHECK_THAT(file_complaint(folder.write("empty.toml", "")),
               Contains("empty.toml:1:1: format: missing") && Contains("name: missing") &&
                   Contains("[planform] is required") && Contains("at least one [[layer]]"));
}

TEST_CASE("text that the parser must not see is refused with its place") {
    CHECK_THAT(hostile_complaint(head + "x = " + std::string(10000, '[')),
               StartsWith("board.toml:3:21: tables or keys are nested deeper than 16"));
    CHECK_THAT(hostile_complaint(head + "x = " + repeated("{ a = ", 10000)),
               Contains("nested deeper than 16"));
    CHECK_THAT(hostile_complaint(head + repeated("a.", 10000) + "a = 1\n"),
               StartsWith("board.toml:3:34: tables or keys are nested deeper than 16"));
    CHECK_THAT(hostile_complaint(head + "[" + repeated("a.", 10000) + "a]\n"),
               Contains("nested deeper than 16"));
    CHECK_THAT(hostile_complaint(head + repeated("\"a\" . ", 10000) + "a = 1\n"),
               Contains("nested deeper than 16"));
    CHECK_THAT(hostile_complaint(head + "n\xc3\xa4me = 1\n"),
               StartsWith("board.toml:3:2: found a letter "
                          "beyond ASCII"));
    CHECK_THAT(hostile_complaint("name = \"\xff\"\n"),
               StartsWith("board.toml:1:9: found the byte 0xff"));
    CHECK_THAT(hostile_complaint("name = \"\xc0\xaf\"\n"), Contains("0xc0"));     // overlong
    CHECK_THAT(hostile_complaint("name = \"\xed\xa0\x80\"\n"), Contains("0xed")); // surrogate
    CHECK_THAT(hostile_complaint("# \xc3\xb6 \x01\n"),
               StartsWith("board.toml:1:5: found the control"));
    CHECK_THAT(hostile_complaint("x = 1.5\"\xc3\xb6\"\n"),
               StartsWith("board.toml:1:9: found a letter"));
    CHECK_THAT(hostile_complaint("name = 1\rformat = 1\n"),
               StartsWith("board.toml:1:9: found the control"));
    CHECK_THAT(hostile_complaint(std::string(2 << 20, ' ')), Contains("larger than 1 MiB"));
}

TEST_CASE("a syntax error is named with its place") {
    CHECK_THAT(hostile_complaint("["), StartsWith("board.toml:1:"));
    CHECK_THAT(hostile_complaint("[\n"), StartsWith("board.toml:1:2"));
    CHECK_THAT(hostile_complaint(head + "waist = 012\n"), StartsWith("board.toml:3:"));
    CHECK_THAT(hostile_complaint(head + "x = \"open\n"), StartsWith("board.toml:3:"));
    CHECK_THAT(hostile_complaint(head + "x = '''open\n"), StartsWith("board.toml:"));
    CHECK_THAT(hostile_complaint(head + "name = \"b\"\n"), StartsWith("board.toml:3:"));
    CHECK_THAT(hostile_complaint(head + "x = [1, 2\n"), StartsWith("board.toml:"));
    CHECK_THAT(hostile_complaint(head + "x = 99999999999999999999\n"), StartsWith("board.toml:3:"));
    CHECK_THAT(hostile_complaint(head + "x = \"\\q\"\n"), StartsWith("board.toml:3:"));
}

TEST_CASE("all problems of a file are reported together, in the order of the file") {
    std::string text = demo_board_text();
    const auto change = [&](const std::string& from, const std::string& to) {
        text.replace(text.find(from), from.size(), to);
    };
    change("waist_width_mm = 250", "waist_width_mm = -250");
    change("\"poplar\"", "\"popler\"");
    change("thickness_mm = 1.2", "thickness = 1.2");
    change("0.48", "\"half\"");
    change("[stance]", "[stnace]");
    try {
        (void)read_text_board(text);
        FAIL("accepted");
    } catch (const InputError& error) {
        REQUIRE(error.problems().size() >= 6);
        int last = 0;
        for (const Problem& problem : error.problems()) {
            REQUIRE_THAT(problem.place, StartsWith("board.toml:"));
            const int line = std::stoi(problem.place.substr(11));
            CHECK(line >= last);
            last = line;
        }
    }
}

TEST_CASE("one broken table is not reported as missing, and its users are not blamed") {
    std::string text = demo_board_text();
    text.replace(text.find("E1_GPa = 40"), 11, "E1_GPa = \"stiff\"");
    const std::string all = hostile_complaint(text);
    CHECK_THAT(all, Contains("material.own.E1_GPa"));
    CHECK(std::count(all.begin(), all.end(), '\n') == 0); // that is all
    CHECK_THAT(hostile_complaint("planform = 3\n" + head),
               Contains("planform: found 3; accepted: a table"));
    CHECK_THAT(hostile_complaint("layer = 3\n" + head),
               Contains("layer: found 3; accepted: an array"));
    CHECK_THAT(hostile_complaint("layer = []\n" + head),
               Contains("layer: found an array of 0; accepted: at least one [[layer]]"));
    CHECK_THAT(hostile_complaint("layer = [3]\n" + head), Contains("layer[0]: accepted: a table"));
    CHECK_THAT(hostile_complaint("material = [3]\n" + head),
               Contains("material: found an array of 1"));
}

TEST_CASE("tables that need each other are asked for") {
    const std::string coupon = head + "[planform]\nrectangle_mm = [200, 20]\n";
    const std::string plate = "[[layer]]\nname = \"p\"\nmaterial = \"steel\"\nthickness_mm = 1\n";
    CHECK(hostile_complaint(coupon + plate).empty());
    CHECK_THAT(hostile_complaint(coupon + "[[layer]]\nname = \"c\"\ncore = true\n"),
               Contains("core: missing; a layer has core = true"));
    CHECK_THAT(hostile_complaint(
                   coupon + plate +
                   "[core]\nthickness_mm = [[0, 5]]\nstrips = [{ material = \"ash\", width_mm "
                   "= 9 }]\n"),
               Contains("board.toml:9:1: core: no layer has core = true"));
    CHECK_THAT(hostile_complaint(coupon + plate + "[sidewall]\nmaterial = \"abs\"\nwidth_mm = 2\n"),
               Contains("board.toml:9:1: sidewall: it replaces the core"));
    CHECK_THAT(hostile_complaint(coupon + plate + "[mass_only]\ninserts_per_foot = 4\n"),
               Contains("must be given together") && Contains("[stance] is missing"));
    CHECK_THAT(
        hostile_complaint(coupon + "waist_width_mm = 3\n" + plate),
        Contains("board.toml:5:18: planform.waist_width_mm: not accepted beside rectangle_mm"));
    CHECK_THAT(hostile_complaint(coupon + "running_length_mm = 300\n" + plate),
               Contains("contact stations on the board"));
    CHECK_THAT(hostile_complaint(coupon + "contact_left_mm = [-90, 101]\n" + plate),
               Contains("board.toml:5:19: planform.contact_left_mm: found") &&
                   Contains("it is 0 mm wide at x = 101 mm"));
    CHECK_THAT(hostile_complaint(coupon + "contact_right_mm = [90, -90]\n" + plate),
               Contains("planform.contact_right_mm: found") && Contains("from below to"));
}

TEST_CASE("an outline that cannot be is refused at its key") {
    const std::string plate = "[[layer]]\nname = \"p\"\nmaterial = \"steel\"\nthickness_mm = 1\n";
    CHECK_THAT(
        hostile_complaint(head +
                          "[planform]\nrunning_length_mm = 10\npolygon_mm = [[0, 0], [50, 50], "
                          "[50, 0], [0, 50]]\n" +
                          plate),
        StartsWith("board.toml:5:14: planform.polygon_mm: "));
    CHECK_THAT(hostile_complaint(head +
                                 "[planform]\nrunning_length_mm = 10\npolygon_mm = [[0, 0], [50, "
                                 "50]]\n" +
                                 plate),
               Contains("3 to 1000 corners"));
    CHECK_THAT(
        hostile_complaint(head + "[planform]\nrunning_length_mm = 10\npolygon_mm = []\n" + plate),
        Contains("planform.polygon_mm: found an array of 0"));
    CHECK_THAT(
        hostile_complaint(
            head + "[planform]\nrunning_length_mm = 10\noutline_csv = \"none.csv\"\n" + plate),
        Contains("board.toml:5:15: planform.outline_csv: 'none.csv': no such file"));
    CHECK_THAT(
        hostile_complaint(
            head + "[planform]\nrunning_length_mm = 10\noutline_csv = \"/dev/zero\"\n" + plate),
        Contains("is not a regular file"));
    CHECK_THAT(
        hostile_complaint(
            head + "[planform]\nrunning_length_mm = 10\noutline_csv = \"a\\u0000b\"\n" + plate),
        Contains("accepted: 1 to 200 bytes on one line"));
}

TEST_CASE("columns count characters, also behind letters beyond ASCII") {
    CHECK_THAT(hostile_complaint("name = \"\xc3\xb6~\xe2\x82\xac\" x\n"),
               StartsWith("board.toml:1:14: "));
    CHECK_THAT(hostile_complaint("limits = { \"\xc3\xb6~\" = { min = 1 }, b = 3 }\n"),
               Contains("board.toml:1:36: limits.b: found 3"));
    CHECK_THAT(hostile_complaint("\"\xc3\xb6~\" = 3 # \xc3\xb6\nname = 3\n"),
               Contains("board.toml:1:1: \xc3\xb6~: unknown key") &&
                   Contains("board.toml:2:8: name: found 3"));
    CHECK_THAT(hostile_complaint("format = \"\xc3\xb6\"\n"),
               Contains("found the text \"\xc3\xb6\""));
    CHECK_THAT(hostile_complaint("\"\"\"\"\"x\"a\"\xc3\xb6\"\n"),
               StartsWith("board.toml:1:")); // no key
}

TEST_CASE("a list of thousands is refused as a whole") {
    CHECK_THAT(hostile_complaint(head + repeated("[[layer]]\n", 1001)),
               Contains("layer: found an array of 1001; accepted: at most 1000 entries"));
    CHECK_THAT(
        hostile_complaint(head + "[core]\nthickness_mm = [" + repeated("[0, 1],", 1001) + "]\n"),
        Contains("core.thickness_mm: found an array of 1001"));
}

TEST_CASE("thousands of problems are cut short") {
    const std::string all = hostile_complaint(head + "[limits]\n" + [] {
        std::string keys;
        for (int i = 0; i < 5000; ++i) {
            keys.append("k").append(std::to_string(i)).append(" = 1\n");
        }
        return keys;
    }());
    CHECK(std::count(all.begin(), all.end(), '\n') == 200);
    CHECK_THAT(all, Contains("further ones are not listed"));
}

TEST_CASE("changed at random, a board file is read or refused, and nothing else happens") {
    // Seeded, so that a failure can be repeated; the tokens aim at the joints of the grammar.
    std::mt19937 random(20240917); // NOLINT(cert-msc51-cpp)
    const std::vector<std::string> tokens{
        "[",    "]",      "[[",        "]]",      "{",    "}",           "=",          "\"",
        "'",    "\"\"\"", "\\",        "\\u0000", "nan",  "-inf",        "1e308",      "-",
        ".",    ",",      "\n",        "#",       "true", "0x10",        "2020-01-01", "\xc3\xa9",
        "\x01", "\xff",   "999999999", "[]",      "{}",   "format = 1\n"};
    const auto pick = [&](std::size_t n) {
        return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
    };
    int refused = 0;
    constexpr int runs = 1500;
    for (int run = 0; run < runs; ++run) {
        std::string text = demo_board_text();
        for (std::size_t change = 0; change <= pick(3); ++change) {
            const std::size_t at = pick(text.size());
            switch (pick(4)) {
            case 0:
                text.erase(at, 1 + pick(40));
                break;
            case 1:
                text.insert(at, tokens[pick(tokens.size())]);
                break;
            case 2:
                text[at] = static_cast<char>(pick(256));
                break;
            default:
                text.insert(at, text.substr(pick(text.size()), pick(60)));
            }
        }
        refused += hostile_complaint(text).empty() ? 0 : 1;
    }
    CHECK(refused > runs / 2);
}
