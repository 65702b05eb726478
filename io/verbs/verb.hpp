#pragma once

#include <functional>
#include <iosfwd>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace vrid {

/// What the program tells whoever started it.
enum ExitStatus : int {
    exit_done = 0,
    exit_limit_exceeded = 1, ///< done, but a limit was exceeded or a wanted error bar not reached
    exit_input = 2,          ///< InputError
    exit_solve = 3,          ///< SolveError, and anything unforeseen
    exit_output = 4,         ///< OutputError
    exit_cancelled = 130     ///< as shells say it of Ctrl-C
};

/// Thrown by a verb when the user has cancelled; unwinds to main.
class Cancelled : public std::runtime_error {
  public:
    Cancelled() : std::runtime_error("cancelled") {}
};

/// Where a verb speaks and how it hears that it should stop.
struct Console {
    std::ostream& out;                ///< results
    std::ostream& err;                ///< progress and warnings
    std::ostream* terminal = nullptr; ///< what err stands on, for a bar and its control codes
    std::function<bool()> cancelled;  ///< asked between steps
};

/// One option of a verb.
struct Option {
    std::string name;  ///< "--case"
    std::string value; ///< what stands after it, "NAME"; empty: a switch
    std::string what;  ///< one sentence for the help text
    bool repeatable = false;
    std::vector<std::string> known = {}; ///< what its value may be, for completion; empty: a file
};

/// The options, then the others.
std::vector<Option> with_options(std::vector<Option> options, const std::vector<Option>& others);

/// What the user typed, sorted but not yet understood.
struct Arguments {
    std::vector<std::string> positional;
    std::map<std::string, std::vector<std::string>>
        options; ///< by name; a switch has one empty text
    [[nodiscard]] bool has(const std::string& name) const { return options.contains(name); }
};

/// One verb: everything that parsing and help need, and what it does.
struct Verb {
    std::string name;
    std::string summary;     ///< one line
    std::string positional;  ///< "BOARD..."
    int least = 0, most = 0; ///< how many of them
    std::string about;       ///< paragraphs, split by empty lines
    std::vector<Option> options;
    std::vector<std::string> examples;
    int (*run)(const Arguments& arguments, Console& console); ///< returns an ExitStatus
    bool predicts = false;               ///< prints predictions: its help shows the caution too
    std::vector<std::string> known = {}; ///< what a positional may be, for completion
};

/// The table of verbs, in the order of the help text.
const std::vector<Verb>& verbs();

Verb check_verb();
Verb solve_verb();
Verb compare_verb();
Verb edge_verb();
Verb strength_verb();
Verb sense_verb();
Verb match_verb();
Verb scatter_verb();
Verb calibrate_verb();
Verb lot_verb();
Verb batch_verb();
Verb report_verb();
Verb sheet_verb();
Verb materials_verb();
Verb keys_verb();
Verb live_verb();
Verb new_verb();
Verb help_verb();

} // namespace vrid
