#include "io/verbs/help.hpp"

#include <cstdlib>

#include <catch2/catch.hpp>

#include "io/toml/board_keys.hpp"
#include "io/verbs/verb.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using vrid::tests::content;
using vrid::tests::TemporaryFolder;

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
        CHECK(completion.find(topic.name + "\n") != std::string::npos);
    }
}

namespace {

// What bash would offer for the last of these words, a line each.
std::string offered(const std::vector<std::string>& words) {
    std::string quoted;
    for (const std::string& word : words) {
        quoted += " '" + word + "'";
    }
    const TemporaryFolder folder;
    const std::string script =
        folder.file("complete.sh", bash_completion() + "COMP_WORDS=(vrid" + quoted +
                                       ")\nCOMP_CWORD=" + std::to_string(words.size()) +
                                       "\n_vrid\nprintf '%s\\n' \"${COMPREPLY[@]}\"\n");
    const std::string answer = (folder.path() / "answer").string();
    REQUIRE(std::system(("bash '" + script + "' > '" + answer + "'").c_str()) == 0);
    return content(answer);
}

} // namespace

TEST_CASE("bash completes what is known of a value: cases, numbers, lists, paths, tables") {
    CHECK(offered({"solve", "--case", "nose"}) == "nose-flex\nnose-twist\n");
    CHECK(offered({"compare", "a.toml", "--case", "st"}) == "stance-twist\n");
    CHECK(offered({"strength", "--case", "f"}) == "full-twist\n"); // free-modes has no load
    CHECK(offered({"strength", "--criterion", ""}) == "tsai-hill\nmax-stress\n");
    CHECK(offered({"edge", "--side", "r"}) == "right\n");
    CHECK(offered({"edge", "--hardness", "soft,p"}) == "soft,packed\n");
    CHECK(offered({"sense", "--of", "mass,nose-f"}) == "mass,nose-flex\n");
    CHECK(offered({"sense", "--of", "free-modes mode 2"}) == "free-modes mode 2\n");
    CHECK(offered({"sense", "--to", "layer.*.a"}) ==
          "layer.*.angle_deg\nlayer.*.areal_weight_scale\n");
    CHECK(offered({"solve", "--set", "core.thick"}) == "core.thickness_scale\ncore.thickness_mm\n");
    CHECK(offered({"keys", "core.s"}) == "core.strips\ncore.strips_left\ncore.strips_right\n");
    CHECK(offered({"help", "go"}) == "goal\n");
    CHECK(offered({"help", "str"}) == "strength\n");
    CHECK(offered({"sol"}) == "solve\n");
    CHECK(offered({"solve", "--be"}) == "--bend\n");
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
