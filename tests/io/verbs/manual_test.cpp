#include "io/verbs/manual.hpp"

#include <catch2/catch.hpp>

#include "io/toml/board_keys.hpp"
#include "io/verbs/verb.hpp"

using namespace vrid;

namespace {

std::string in_roff(const std::string& text) {
    std::string all;
    for (const char letter : text) {
        all += letter == '-' ? "\\-" : std::string(1, letter);
    }
    return all;
}

} // namespace

TEST_CASE("the manual and the completion know every verb, option and topic of the help") {
    const std::string page = manual_page();
    const std::string completion = bash_completion();
    for (const Verb& verb : verbs()) {
        CAPTURE(verb.name);
        CHECK(page.find(".SS vrid " + in_roff(verb.name)) != std::string::npos);
        const std::size_t line = completion.find("        " + verb.name + ") options='");
        REQUIRE(line != std::string::npos);
        const std::string words = completion.substr(line, completion.find('\n', line) - line);
        for (const Option& option : verb.options) {
            CAPTURE(option.name);
            CHECK(page.find(".B " + in_roff(option.name)) != std::string::npos);
            CHECK(words.find(option.name) != std::string::npos);
        }
    }
    for (const Topic& topic : topics()) {
        CHECK(page.find("vrid\\-" + topic.name) != std::string::npos);
        CHECK(completion.find(topic.name + " ") != std::string::npos);
    }
}

TEST_CASE("the topic of the board file holds every key of the reader's table") {
    const std::string text = topics().front().text();
    for (const BoardKey& key : board_keys()) {
        CAPTURE(key.table, key.key);
        CHECK(text.find(std::string(key.key)) != std::string::npos);
    }
}

TEST_CASE("no line of a man page begins as a request by chance") {
    for (const Topic& topic : topics()) {
        const std::string page = topic_page(topic);
        CHECK(page.starts_with(".TH VRID-"));
        CHECK(page.find("\n.\n") == std::string::npos);
    }
}
