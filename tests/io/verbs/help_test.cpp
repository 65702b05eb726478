// Help texts, of a verb made by hand and of the program.
#include "io/verbs/help.hpp"

#include <set>
#include <sstream>

#include <catch2/catch.hpp>

#include "tests/text_rows.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Verb by_hand() {
    Verb verb;
    verb.name = "saw";
    verb.positional = "BOARD";
    verb.about = "Saws a board.\n\nTwice.";
    verb.options = {{"--blade", "MM", "Width of the blade."}, {"--dry", "", "No water."}};
    verb.examples = {"vrid saw board.toml"};
    return verb;
}

} // namespace

TEST_CASE("a verb's help is its usage, paragraphs, options in two columns, examples") {
    Verb verb = by_hand();
    CHECK(usage(verb) == "usage: vrid saw BOARD [options]\n");
    CHECK(verb_help(verb) == "usage: vrid saw BOARD [options]\n\nSaws a board.\n\nTwice.\n\n"
                             "options\n"
                             "  --blade MM  Width of the blade.\n"
                             "  --dry       No water.\n"
                             "  --help      Print this text.\n\n"
                             "example\n  vrid saw board.toml\n");
    verb.positional.clear();
    CHECK(usage(verb) == "usage: vrid saw [options]\n");
    verb.examples.emplace_back("vrid saw other.toml");
    CHECK_THAT(verb_help(verb), Catch::EndsWith("\nexamples\n  vrid saw board.toml\n  vrid saw "
                                                "other.toml\n"));
    const std::string plain = verb_help(verb);
    verb.predicts = true;
    CHECK(verb_help(verb).size() > plain.size() + 40); // the caution
}

TEST_CASE("a meaning longer than a line goes on below itself, within 80 letters") {
    Verb verb = by_hand();
    verb.options[0].what =
        "Width of the blade, as it is stamped on its side, or as it was measured "
        "after the last sharpening.";
    const std::string help = verb_help(verb);
    CHECK_THAT(help,
               Contains("\n  --blade MM  Width of the blade, as it is stamped on its side, or "
                        "as it was\n              measured after the last sharpening.\n"));
}

TEST_CASE("the program's help has every verb and topic with its summary, every exit status once") {
    const std::string help = program_help();
    for (const Verb& verb : verbs()) {
        CAPTURE(verb.name);
        CHECK_THAT(text_row(help, verb.name + " " + verb.summary.substr(0, 20)),
                   Catch::StartsWith(verb.name));
        CHECK_THAT(text_row(help, verb.name + " "), !Contains("no row"));
        CHECK_FALSE(verb.examples.empty());
    }
    for (const auto& [status, meaning] : exit_meanings()) {
        CHECK_THAT(text_row(help, status + " " + meaning.substr(0, 20)), Catch::StartsWith(status));
    }
    const std::vector<std::pair<std::string, int>> statuses{
        {"0", exit_done},  {"1", exit_limit_exceeded}, {"2", exit_input},
        {"3", exit_solve}, {"4", exit_output},         {"130", exit_cancelled}};
    REQUIRE(exit_meanings().size() == statuses.size());
    for (std::size_t i = 0; i < statuses.size(); ++i) {
        CHECK(exit_meanings()[i].first == statuses[i].first);
        CHECK(std::stoi(statuses[i].first) == statuses[i].second);
    }
}

TEST_CASE("no line of a help text is longer than 80 letters, no option is told twice") {
    std::vector<std::string> texts{program_help()};
    for (const Verb& verb : verbs()) {
        texts.push_back(verb_help(verb));
        std::set<std::string> names;
        for (const Option& option : verb.options) {
            CAPTURE(verb.name, option.name);
            CHECK(names.insert(option.name).second);
            CHECK(option.what.ends_with('.'));
        }
    }
    for (const std::string& text : texts) {
        std::istringstream lines(text);
        for (std::string line; std::getline(lines, line);) {
            CAPTURE(line);
            const bool example = line.find("vrid ") != std::string::npos;
            CHECK((line.size() <= 80 || example));
        }
    }
}
