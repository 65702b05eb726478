#include <algorithm>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/verbs/verb.hpp"
#include "tests/places.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

/// The longest line, in bytes: help texts are plain ASCII.
std::size_t longest_line(const std::string& text) {
    std::size_t longest = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        longest = std::max(longest, end - at);
        at = end + 1;
    }
    return longest;
}

} // namespace

TEST_CASE("help of the program and of every verb is complete and fits a terminal") {
    const Run all = run_program({"--help"});
    CHECK(all.status == 0);
    CHECK(all.err.empty());
    CHECK(longest_line(all.out) <= 80);
    for (const Verb& verb : verbs()) {
        CHECK_THAT(all.out, Contains("  " + verb.name + " "));
        const Run help = run_program({verb.name, "--help"});
        CHECK(help.status == 0);
        CHECK(help.out.starts_with("usage: vrid " + verb.name));
        CHECK_THAT(help.out, Contains("\n  vrid " + verb.name)); // an example
        CHECK(longest_line(help.out) <= 80);
        for (const Option& option : verb.options) {
            CHECK_THAT(help.out, Contains("  " + option.name));
        }
    }
}

TEST_CASE("the version is one line") {
    const Run run = run_program({"--version"});
    CHECK(run.status == 0);
    CHECK(run.out.starts_with("vrid "));
    CHECK(run.out.find('\n') == run.out.size() - 1);
}

TEST_CASE("no words at all is an input error that shows the help") {
    const Run run = run_program({});
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK_THAT(run.err, Contains("usage: vrid VERB"));
}

TEST_CASE("unknown verbs and options are input errors with the nearest name") {
    const Run verb = run_program({"slove", querwind});
    CHECK(verb.status == 2);
    CHECK_THAT(verb.err, Contains("'slove'") && Contains("did you mean 'solve'?"));
    const Run option = run_program({"solve", querwind, "--cse", "nose-twist"});
    CHECK(option.status == 2);
    CHECK_THAT(option.err, Contains("'--cse'") && Contains("did you mean '--case'?"));
    const Run first = run_program({"--versoin"});
    CHECK(first.status == 2);
    CHECK_THAT(first.err, Contains("did you mean '--version'?"));
}

TEST_CASE("a missing value or an empty word is said in the words of the help") {
    const auto refused = [](const std::vector<std::string>& words, const char* says) {
        const Run run = run_program(words);
        INFO(run.err);
        CHECK(run.status == 2);
        CHECK_THAT(run.err, Contains(says));
    };
    refused({"solve", coupon, "--degree"}, "--degree: its value is missing; accepted: --degree P");
    refused({"solve", coupon, "--json=1"}, "--json: it takes no value");
    refused({"solve", ""}, "found an empty word; accepted: BOARD");
    refused({"new", ""}, "found an empty word; accepted: FILE");
    refused({"help", "--man", "solve"},
            "'solve' is a verb, not a topic; accepted: vrid help solve");
}

TEST_CASE("values of options are checked, all in one go") {
    const Run run = run_program({"solve", querwind, "--degree", "9", "--size-mm", "x",
                                 "--rel-error", "150%", "--case", "nose-twits"});
    CHECK(run.status == 2);
    CHECK_THAT(run.err, Contains("--degree") && Contains("'9'") && Contains("--size-mm") &&
                            Contains("'x'") && Contains("'150%'") &&
                            Contains("did you mean 'nose-twist'?"));
    CHECK(run_program({"solve", querwind, "--degree"}).status == 2);
    CHECK(run_program({"solve", querwind, "--degree", "3", "--degree", "4"}).status == 2);
    CHECK(run_program({"solve"}).status == 2);
    CHECK(run_program({"solve", querwind, querwind}).status == 2);
    CHECK(run_program({"compare", querwind}).status == 2);
}

TEST_CASE("a repeatable option takes one value each time and leaves the next word alone") {
    const Run run = run_program({"check", "--at", "-270", "--at", "100", querwind});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("x = -270.0 mm") && Contains("x = 100.0 mm"));
}

TEST_CASE("after -- every word is a file") {
    const Run run = run_program({"check", "--at", "100", "--", coupon});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("x = 100.0 mm"));
    const Run odd = run_program({"check", "--", "--at"});
    CHECK(odd.status == 2);
    CHECK_THAT(odd.err, Contains("--at: no such file"));
    const Run none = run_program({"check", "--"});
    CHECK_THAT(none.err, Contains("at least 1") && Contains("found 0"));
}

TEST_CASE("a full device at standard output is an output error") {
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"--help"}, {"materials"}, {"check", querwind}}) {
        const Run run = run_program(words, "/dev/full");
        CHECK(run.status == 4);
        CHECK_THAT(run.err, Contains("standard output: No space left on device"));
    }
    // more than is held back before the first write
    const Run large = run_program(
        {"check",     querwind,    "--json",    "--at=-500", "--at=-480", "--at=-460", "--at=-440",
         "--at=-420", "--at=-400", "--at=-380", "--at=-360", "--at=-340", "--at=-320", "--at=-300",
         "--at=-280", "--at=-260", "--at=-240", "--at=-220", "--at=-200", "--at=-180", "--at=-160"},
        "/dev/full");
    CHECK(large.status == 4);
    CHECK_THAT(large.err, Contains("No space left on device"));
}

TEST_CASE("control characters of a board's name reach nobody's terminal") {
    const TemporaryFolder folder;
    std::string text = content(std::string(source_dir) + "/" + querwind);
    const std::string name = "name   = \"NH-157 Querwind\"";
    const std::size_t at = text.find(name);
    REQUIRE(at != std::string::npos);
    text.replace(at, name.size(), R"(name = "\u001b[31mred\u0085\u007f")");
    const std::string board = folder.file("board.toml", text);
    const auto has_control = [](const std::string& all) {
        return std::any_of(all.begin(), all.end(),
                           [](unsigned char c) {
                               return (c < ' ' && c != '\n' && c != '\t') || c == 0x7F;
                           }) ||
               all.find("\u0085") != std::string::npos;
    };
    const Run refused = run_program({"check", board}); // a name is a text on one line
    CHECK(refused.status == 2);
    CHECK_FALSE(has_control(refused.err));
    const std::size_t bell = text.find(R"(\u001b[31mred\u0085\u007f)");
    text.replace(bell, std::string(R"(\u001b[31mred\u0085\u007f)").size(), R"(red\u0085)");
    const std::string quiet = folder.file("quiet.toml", text);
    const Run plain = run_program({"check", quiet});
    CHECK(plain.status == 0);
    CHECK_FALSE(has_control(plain.out));
    CHECK_THAT(plain.out, Contains("red\\u0085"));
    const Run json = run_program({"check", quiet, "--json"});
    CHECK_FALSE(has_control(json.out));
    CHECK(nlohmann::json::parse(json.out)["boards"][0]["name"] == "red\u0085");
    CHECK_FALSE(has_control(run_program({"check", "\u001b[2Jgone.toml"}).err));
}

TEST_CASE("a missing board file is an input error that names it") {
    const Run run = run_program({"check", "no-such-board.toml"});
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK_THAT(run.err, Contains("no-such-board.toml"));
}

TEST_CASE("the material library is listed, one material is shown, a wrong name gets a hint") {
    CHECK_THAT(run_program({"materials"}).out, Contains("poplar") && Contains("e-glass"));
    CHECK_THAT(run_program({"materials", "poplar"}).out, Contains("E1"));
    const Run wrong = run_program({"materials", "popler"});
    CHECK(wrong.status == 2);
    CHECK_THAT(wrong.err, Contains("poplar"));
    CHECK(run_program({"materials", "--json"}).out.starts_with("{"));
}

TEST_CASE("keys knows every table of the board file, and every key at its top") {
    const auto keys = nlohmann::json::parse(run_program({"keys", "--json"}).out)["keys"];
    int asked = 0;
    for (const auto& key : keys) {
        if (key["table"] == "" || key["form"] == "table" || key["form"] == "tables") {
            const auto name = key["key"].get<std::string>();
            CAPTURE(name);
            const Run run = run_program({"keys", name});
            CHECK(run.status == 0);
            CHECK_THAT(run.out, Contains(name));
            ++asked;
        }
    }
    CHECK(asked > 20);
    const Run tolerance = run_program({"keys", "tolerance"});
    CHECK_THAT(tolerance.out, Contains("[tolerance]") && Contains("one standard deviation") &&
                                  Contains("vrid help names"));
    CHECK(nlohmann::json::parse(
              run_program({"keys", "tolerance", "--json"}).out)["keys"][0]["key"] == "tolerance");
    CHECK_THAT(run_program({"keys", "limits"}).out, Contains("vrid help names"));
    CHECK_THAT(run_program({"keys", "tolerence"}).err, Contains("'tolerance'?"));
}

TEST_CASE("keys lists a table of the board file, and those within it") {
    const Run run = run_program({"keys", "core"});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("[core.strips]") && Contains("width_mm") &&
                            Contains("0.1 to 1000") && !Contains("waist_width_mm"));
    const auto keys = nlohmann::json::parse(run_program({"keys", "--json"}).out)["keys"];
    CHECK(keys.size() > 90);
    const Run wrong = run_program({"keys", "stanse"});
    CHECK(wrong.status == 2);
    CHECK_THAT(wrong.err, Contains("did you mean 'stance'?"));
}

TEST_CASE("new writes a board that check --strict takes, and leaves a file that is there alone") {
    const TemporaryFolder folder;
    for (const std::string from : {"", "nh-161-lattenzaun", "coupon-triax"}) {
        const std::string file = (folder.path() / ("new-" + from + ".toml")).string();
        std::vector<std::string> words{"new", file};
        if (!from.empty()) {
            words.insert(words.end(), {"--from", from});
        }
        CHECK(run_program(words).status == 0);
        const Run checked = run_program({"check", "--strict", file});
        CHECK(checked.status == 0);
        CHECK(checked.err.empty());
        const std::string before = content(file);
        CHECK(run_program(words).status == 2);
        CHECK(content(file) == before);
    }
    const Run wrong =
        run_program({"new", (folder.path() / "b.toml").string(), "--from", "nh-161-latenzaun"});
    CHECK(wrong.status == 2);
    CHECK_THAT(wrong.err, Contains("did you mean 'nh-161-lattenzaun'?"));
}
