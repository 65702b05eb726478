#include "io/read/read_tables.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

std::string row(int i) {
    const double t = 2 * std::numbers::pi * i / 24;
    return std::to_string(700 * std::cos(t)) + "," + std::to_string(140 * std::sin(t));
}

// 24 good rows after the header (rows 2 to 25); the third of them replaced.
std::string outline(const std::string& header, const std::string& third,
                    const std::string& ending = "\n", const std::string& more = "") {
    std::string text = header + ending;
    for (int i = 0; i < 24; ++i) {
        text += (i == 2 && !third.empty() ? third : row(i) + more) + ending;
    }
    return text;
}

std::string outline_complaint(const std::string& text) {
    std::vector<Problem> problems;
    const auto read = read_outline(text, "o.csv", problems);
    CHECK(read.has_value() == problems.empty());
    return problems.empty() ? "" : problems.front().place + ": " + problems.front().message;
}

using Catch::Contains;
using Catch::StartsWith;

} // namespace

TEST_CASE("an outline file is read, with Windows line ends, closed by hand and with corners too") {
    std::vector<Problem> problems;
    const auto plain = read_outline(outline("x_mm,y_mm", ""), "o.csv", problems);
    REQUIRE(plain.has_value());
    CHECK(plain->outline.points.size() == 24);
    CHECK(plain->outline.points[0].x() == 0.7);
    CHECK_FALSE(plain->outline.corner[0]);
    CHECK(plain->rounding == Approx(0.5e-9)); // std::to_string writes six decimals
    const auto closed =
        read_outline(outline("x_mm, y_mm", "", "\r\n") + row(0) + "\r\n\r\n", "o.csv", problems);
    REQUIRE(closed.has_value());
    CHECK(closed->outline.points.size() == 24);
    const auto corners =
        read_outline(outline("x_mm,y_mm,corner", "400,+90,1", "\n", ",0"), "o.csv", problems);
    REQUIRE(corners.has_value());
    CHECK(corners->outline.corner[2]);
    CHECK_FALSE(corners->outline.corner[3]);
    const auto twice = read_outline(outline("x_mm,y_mm", row(1)), "o.csv", problems);
    REQUIRE(twice.has_value()); // as a fine drawing has them, rounded
    CHECK(twice->outline.points.size() == 23);
    CHECK(problems.empty());
}

TEST_CASE("an outline is read as spreadsheets write it: semicolons, tabs, decimal commas, quotes") {
    const auto with = [](char separator, char mark) {
        std::string text = outline("\"x_mm\",\"y_mm\"", "", "\r\n");
        for (char& c : text) {
            c = c == ',' ? separator : c == '.' ? mark : c;
        }
        return "\xef\xbb\xbf" + text;
    };
    std::vector<Problem> problems;
    const auto plain = read_outline(outline("x_mm,y_mm", ""), "o.csv", problems);
    for (const std::string& text :
         {with(',', '.'), with(';', '.'), with(';', ','), with('\t', '.'), with('\t', ',')}) {
        const auto read = read_outline(text, "o.csv", problems);
        REQUIRE(read.has_value());
        CHECK(read->outline.points == plain->outline.points);
    }
    CHECK(problems.empty());
}

TEST_CASE("the last digit of an outline file is that of its longest coordinate") {
    std::string text = "x_mm,y_mm\n";
    for (int i = 0; i < 24; ++i) {
        const double t = 2 * std::numbers::pi * i / 24;
        text += std::to_string(std::lround(700 * std::cos(t))) + "," +
                std::to_string(std::lround(140 * std::sin(t))) + "\n";
    }
    std::vector<Problem> problems;
    CHECK(read_outline(text, "o.csv", problems).value().rounding == Approx(0.5e-3));
    text += "690,-10.25\n";
    CHECK(read_outline(text, "o.csv", problems).value().rounding == Approx(0.5e-5));
}

TEST_CASE("of an outline file with many mistakes twenty are told and the others counted") {
    std::string text = "x_mm,y_mm\n";
    for (int i = 0; i < 30; ++i) {
        text += "1,two\n";
    }
    std::vector<Problem> problems;
    CHECK_FALSE(read_outline(text, "o.csv", problems).has_value());
    REQUIRE(problems.size() == 21);
    CHECK(problems.back().message == "and 10 more");
}

TEST_CASE("a broken outline file is named with row and column") {
    CHECK_THAT(outline_complaint(outline("x,y", "")),
               StartsWith("o.csv:1:1: found the header \"x,y\""));
    CHECK_THAT(outline_complaint(outline("x_mm,y_mm", "400;90")),
               StartsWith("o.csv:4:1: found 1 columns"));
    CHECK_THAT(outline_complaint(outline("x_mm,y_mm", "400,90,1")),
               StartsWith("o.csv:4:1: found 3 columns"));
    CHECK_THAT(
        outline_complaint(outline("x_mm,y_mm", "400,5,90,25")),
        StartsWith("o.csv:4:1: found 4 columns; accepted: 2 as in the header (decimal commas"));
    CHECK_THAT(
        outline_complaint(outline("x_mm,y_mm", "400, nine")),
        StartsWith("o.csv:4:6: y_mm: found \"nine\"; accepted: a number from -5000 to 5000"));
    CHECK_THAT(outline_complaint(outline("x_mm,y_mm", "nan,90")), StartsWith("o.csv:4:1: x_mm"));
    CHECK_THAT(outline_complaint(outline("x_mm,y_mm", "inf,90")), StartsWith("o.csv:4:1: x_mm"));
    CHECK_THAT(outline_complaint(outline("x_mm,y_mm", "1e400,90")), StartsWith("o.csv:4:1: x_mm"));
    CHECK_THAT(outline_complaint(outline("x_mm,y_mm", "60000,90")), StartsWith("o.csv:4:1: x_mm"));
    CHECK_THAT(outline_complaint(outline("x_mm,y_mm", ",")),
               StartsWith("o.csv:4:1: x_mm: found \"\""));
    CHECK_THAT(outline_complaint(outline("x_mm,y_mm", "40 0,90")), StartsWith("o.csv:4:1: x_mm"));
    CHECK_THAT(outline_complaint(outline("x_mm,y_mm,corner", "400,90,2", "\n", ",0")),
               StartsWith("o.csv:4:8: corner: found \"2\"; accepted: 0 or 1"));
    CHECK_THAT(outline_complaint("x_mm,y_mm\n1,2\n3,4\n"),
               StartsWith("o.csv:1:1: found 2 points; accepted: "
                          "20 to 5000"));
    CHECK_THAT(outline_complaint(""), StartsWith("o.csv:1:1: found 0 points"));
    CHECK_THAT(outline_complaint(std::string("\0\1\2\n\xff\xfe", 6)),
               Contains("found the header \"???\""));
}
