// What the topics say that a file may hold is what its reader accepts.
#include <regex>
#include <set>

#include <catch2/catch.hpp>

#include "io/design/number_names.hpp"
#include "io/design/read_goal.hpp"
#include "io/verbs/help.hpp"
#include "solver/cases/cases.hpp"
#include "tests/io/demo_board.hpp"
#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

std::string topic_text(const std::string& name) {
    for (const Topic& topic : topics()) {
        if (topic.name == name) {
            return topic.text();
        }
    }
    return "no topic " + name;
}

// The texts in quotes between the entries of two keys.
std::vector<std::string> quoted_between(const std::string& text, const std::string& key,
                                        const std::string& next) {
    const auto at = text.find("\n  " + key + ": ");
    REQUIRE(at != std::string::npos);
    const std::string entry = squeezed(text.substr(at, text.find("\n  " + next + ": ", at) - at));
    const std::regex quotes("\"([^\"]*)\"");
    return {std::sregex_token_iterator(entry.begin(), entry.end(), quotes, 1),
            std::sregex_token_iterator()};
}

} // namespace

TEST_CASE("numbers that a goal may name are those that its topic shows") {
    const auto names = quoted_between(topic_text("goal"), "number", "percent");
    CHECK(names.size() == 4);
    for (const std::string& name : names) {
        CAPTURE(name);
        CHECK(find_number(name, demo()).request);
    }
}

TEST_CASE("every key of the topic of a goal is one that the reader knows") {
    const std::string text = topic_text("goal");
    const std::string unknown = complaint_of([] {
        (void)read_goal_text({"[[target]]\nnumber = \"mass\"\nvalue = 3\nzzz = 1\n"
                              "[[target]]\nnumber = \"balance_point.x\"\nvalue = 3\nzzz = 1\n"
                              "[[free]]\nvalue = \"core.thickness_mm\"\nmin = 1.5\nmax = 9.5\n"
                              "zzz = 1\n[edge]\nzzz = 1\n[objective]\nzzz = 1\n",
                              "goal.toml", ""},
                             demo());
    });
    const std::regex listed("unknown key; accepted: ([^\n]*)");
    std::string known = ", ";
    for (std::sregex_token_iterator one(unknown.begin(), unknown.end(), listed, 1), end; one != end;
         ++one) {
        known += one->str() + ", ";
    }
    for (const char* key :
         {"percent", "value", "same_as", "min", "max", "within_percent", "within_mm", "max_slope",
          "round_to", "least", "angle_deg", "force_N", "hardness", "bent"}) {
        CAPTURE(key);
        CHECK_THAT(text, Contains(std::string("\n  ") + key + ": "));
        CHECK_THAT(known, Contains(std::string(", ") + key + ", "));
    }
}

TEST_CASE("the topic of cases has every bench case with how it is held, loaded and reported") {
    const std::string text = squeezed(topic_text("cases"));
    for (const CaseInfo& one : bench_cases()) {
        CAPTURE(one.name);
        CHECK_THAT(text, Contains(squeezed(one.name + " held: " + one.held + " loaded: " +
                                           one.loaded + " reported: " + one.reported)));
    }
}

TEST_CASE("the names of numbers tell which side's sidecut radius is meant") {
    CHECK(topic_text("names").find("tighter one's radius") != std::string::npos);
}

TEST_CASE("topics have names and summaries of their own") {
    std::set<std::string> seen;
    for (const Topic& topic : topics()) {
        CAPTURE(topic.name);
        CHECK(seen.insert(topic.name).second);
        CHECK(seen.insert(topic.summary).second);
        CHECK(topic.text().ends_with('\n'));
    }
}
