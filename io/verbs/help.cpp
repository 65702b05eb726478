#include "io/verbs/help.hpp"

#include <algorithm>

#include "io/write/caution.hpp"
#include "io/write/table.hpp"

namespace vrid {

namespace {

constexpr std::size_t width = 80;

std::string paragraphs(const std::string& text) {
    std::string all;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find("\n\n", at), text.size());
        all += "\n" + wrapped(text.substr(at, end - at), width);
        at = end + 2;
    }
    return all;
}

/// A term, and beside it what it means, in two columns.
std::string entry(const std::string& term, const std::string& meaning, std::size_t column) {
    std::string lines = wrapped(meaning, width, column);
    lines.replace(2, term.size(), term); // both sides of it are blanks
    return lines;
}

std::string term_of(const Option& option) {
    return option.name + (option.value.empty() ? "" : " " + option.value);
}

std::string options_text(const Verb& verb) {
    std::vector<Option> options = verb.options;
    options.push_back({"--help", "", "Print this text."});
    std::size_t longest = 0;
    for (const Option& option : options) {
        longest = std::max(longest, term_of(option).size());
    }
    std::string all = "\noptions\n";
    for (const Option& option : options) {
        all += entry(term_of(option), option.what, longest + 4);
    }
    return all;
}

std::string examples_text(const std::vector<std::string>& examples) {
    std::string all = examples.size() == 1 ? "\nexample\n" : "\nexamples\n";
    for (const std::string& example : examples) {
        all += "  " + example + "\n";
    }
    return all;
}

} // namespace

std::string usage(const Verb& verb) {
    return "usage: vrid " + verb.name + (verb.positional.empty() ? "" : " " + verb.positional) +
           " [options]\n";
}

std::string verb_help(const Verb& verb) {
    return usage(verb) + paragraphs(verb.about) + (verb.predicts ? paragraphs(short_caution) : "") +
           options_text(verb) + examples_text(verb.examples);
}

std::vector<std::pair<std::string, std::string>> exit_meanings() {
    return {{"0", "done"},
            {"1", "done, but a limit was exceeded, a target or error bar was not reached, or "
                  "something was found (see the verb)"},
            {"2", "the input is wrong: board file, material or option"},
            {"3", "the computation could not be completed"},
            {"4", "the output could not be written"},
            {"130", "cancelled (Ctrl-C)"}};
}

std::string program_help() {
    constexpr std::size_t column = 13;
    std::string all = "usage: vrid VERB ... [options]\n";
    all += paragraphs("Torsional stiffness, flex and edge hold of snowboards. Reads a board file "
                      "(what the shop draws, cuts and lays up), solves it with plate finite "
                      "elements, and prints the numbers with the error bars of the computation.");
    all += "\nverbs\n";
    for (const Verb& verb : verbs()) {
        all += entry(verb.name, verb.summary, column);
    }
    all += "\noptions\n" + entry("--help", "Print this text; after a verb, that verb's.", column) +
           entry("--version", "Print name and version.", column);
    all += "\ntopics, for vrid help TOPIC\n";
    for (const Topic& topic : topics()) {
        all += entry(topic.name, topic.summary, column);
    }
    all += "\nexit status\n";
    for (const auto& [status, meaning] : exit_meanings()) {
        all += entry(status, meaning, column);
    }
    all +=
        paragraphs("Results go to standard output, progress and warnings to standard error. The "
                   "numbers are predictions of stiffness from nominal values, no proof of strength "
                   "or safety: test a new construction on the bench before anyone rides it.");
    return all + examples_text({"vrid check board.toml", "vrid solve board.toml --out results",
                                "vrid solve --help"});
}

} // namespace vrid
