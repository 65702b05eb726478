#include "io/verbs/verb.hpp"

#include <algorithm>
#include <ostream>

#include <CLI/CLI.hpp>

#include "io/verbs/help.hpp"
#include "io/write/caution.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

const Verb& verb_named(const std::string& name) {
    std::vector<std::string> names;
    for (const Verb& verb : verbs()) {
        if (verb.name == name) {
            return verb;
        }
        names.push_back(verb.name);
    }
    const bool option = name.starts_with('-');
    throw InputError(
        "", std::string(option ? "no option" : "no verb") + " is named '" + name + "'" +
                (option ? did_you_mean(name, {"--help", "--version"}) : did_you_mean(name, names)) +
                "\nsee vrid --help");
}

/// An option that the verb does not have is named before stray words: they may be its values.
[[noreturn]] void refuse(const Verb& verb, const std::string& word) {
    std::vector<std::string> names{"--help"};
    for (const Option& option : verb.options) {
        names.push_back(option.name);
    }
    throw InputError("", "vrid " + verb.name + " has no option '" + word + "'" +
                             did_you_mean(word, names) + "\nsee vrid " + verb.name + " --help");
}

void check_counts(const Verb& verb, const Arguments& arguments) {
    const auto count = static_cast<int>(arguments.positional.size());
    if (count < verb.least || count > verb.most) {
        const std::string wanted = verb.least == verb.most ? std::to_string(verb.least)
                                   : count < verb.least ? "at least " + std::to_string(verb.least)
                                                        : "at most " + std::to_string(verb.most);
        throw InputError("", "vrid " + verb.name + " takes " + wanted + " (" + verb.positional +
                                 "), found " + std::to_string(count) + "\n" + usage(verb) +
                                 "see vrid " + verb.name + " --help");
    }
    for (const std::string& word : arguments.positional) {
        if (word.empty()) {
            throw InputError("", "vrid " + verb.name + ": found an empty word; accepted: " +
                                     verb.positional + "\nsee vrid " + verb.name + " --help");
        }
    }
    std::vector<Problem> problems;
    for (const Option& option : verb.options) {
        const auto found = arguments.options.find(option.name);
        if (found != arguments.options.end() && !option.repeatable && found->second.size() > 1) {
            problems.push_back({option.name, "given more than once"});
        }
    }
    throw_if_any(problems);
}

/// What the library of the command line could not read, in words of our own where it names the
/// option that lacks its value or has one too many.
std::string unread(const Verb& verb, const std::string& said) {
    if (const auto at = said.find(" was given a disallowed flag override"); at != said.npos) {
        return "--" + said.substr(0, at) + ": it takes no value";
    }
    const std::string name = said.substr(0, said.find(':'));
    for (const Option& option : verb.options) {
        if (option.name == name && !option.value.empty()) {
            return name + ": its value is missing; accepted: " + name + " " + option.value;
        }
    }
    return said;
}

/// Sorts the words into positional ones and options; after "--" all are positional. `help` says
/// whether --help was among them.
Arguments parse(const Verb& verb, std::vector<std::string> words, bool& help) {
    const auto end = std::ranges::find(words, "--");
    const std::vector<std::string> plain(end == words.end() ? end : end + 1, words.end());
    words.erase(end, words.end());
    CLI::App app;
    app.set_help_flag("");
    app.allow_extras();
    Arguments arguments;
    app.add_flag("-h,--help", help);
    app.add_option("positional", arguments.positional);
    std::map<std::string, std::vector<std::string>> values;
    for (const Option& option : verb.options) {
        if (option.value.empty()) {
            app.add_flag(option.name)->disable_flag_override();
        } else {
            app.add_option(option.name, values[option.name])
                ->expected(1)
                ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll)
                ->allow_extra_args(false); // the next word is not another value
        }
    }
    std::ranges::reverse(words); // CLI11 takes them from the back
    try {
        app.parse(words);
    } catch (const CLI::ParseError& error) { // its own type stays behind this border
        throw InputError("", unread(verb, error.what()) + "\nsee vrid " + verb.name + " --help");
    }
    for (const std::string& word : app.remaining()) {
        if (word.starts_with('-') && word.size() > 1) {
            refuse(verb, word);
        }
        arguments.positional.push_back(word);
    }
    arguments.positional.insert(arguments.positional.end(), plain.begin(), plain.end());
    for (const Option& option : verb.options) {
        if (app.count(option.name) > 0) {
            arguments.options[option.name] =
                option.value.empty() ? std::vector<std::string>{""} : values[option.name];
        }
    }
    return arguments;
}

} // namespace

int run_command_line(const std::vector<std::string>& words, Console& console) {
    if (words.empty()) {
        console.err << program_help();
        return exit_input;
    }
    const std::string& first = words.front();
    if (first == "--version") {
        console.out << program_name() << "\n";
        return exit_done;
    }
    if (first == "--help" || first == "-h") {
        console.out << program_help();
        return exit_done;
    }
    const Verb& verb = verb_named(first);
    bool help = false;
    const Arguments arguments = parse(verb, {words.begin() + 1, words.end()}, help);
    if (help) {
        console.out << verb_help(verb);
        return exit_done;
    }
    check_counts(verb, arguments);
    return verb.run(arguments, console);
}

} // namespace vrid
