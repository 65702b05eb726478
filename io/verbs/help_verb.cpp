#include <ostream>

#include "io/verbs/help.hpp"
#include "io/verbs/verb.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {
namespace {

std::string help_of(const std::string& name, bool man) {
    std::vector<std::string> names;
    for (const Topic& topic : topics()) {
        if (topic.name == name) {
            return man ? topic_page(topic) : topic.text();
        }
        names.push_back(topic.name);
    }
    for (const Verb& verb : verbs()) {
        if (verb.name == name && man) {
            throw InputError("--man", "'" + name +
                                          "' is a verb, not a topic; accepted: vrid help " + name +
                                          ", or vrid help --man for the page of all verbs");
        }
        if (verb.name == name) {
            return verb_help(verb);
        }
        if (!man) {
            names.push_back(verb.name);
        }
    }
    throw InputError("", std::string("no topic") + (man ? "" : " and no verb") + " is named '" +
                             name + "'" + did_you_mean(name, names) + "\nsee vrid help");
}

int run_help(const Arguments& arguments, Console& console) {
    const bool man = arguments.has("--man");
    const bool completion = arguments.has("--completion");
    if (completion && (man || !arguments.positional.empty())) {
        throw InputError("--completion", "stands alone: it is for all verbs");
    }
    if (completion) {
        console.out << bash_completion();
    } else if (arguments.positional.empty()) {
        console.out << (man ? manual_page() : program_help());
    } else {
        console.out << help_of(arguments.positional.front(), man);
    }
    return exit_done;
}

} // namespace

Verb help_verb() {
    const auto entry = [](const Topic& topic) { return topic.name + ", " + topic.summary; };
    return {
        "help",
        "what a file holds, key by key, and what a verb does",
        "[TOPIC]",
        0,
        1,
        "Prints the reference of a topic, or the help of a verb. Topics: " +
            joined(topics(), "; ", entry) + ".",
        {{"--man", "", "Print a page for man: vrid(1), or of the topic."},
         {"--completion", "", "Print the script that lets bash complete verbs, options, names."}},
        {"vrid help board", "vrid help goal", "vrid help --man > vrid.1"},
        run_help,
        false,
        each_of(topics(), &Topic::name)};
}

} // namespace vrid
