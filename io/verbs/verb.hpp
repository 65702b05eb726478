#pragma once

#include <functional>
#include <iosfwd>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "mesh/board/error.hpp"

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

/// Seconds since some moment.
using Clock = std::function<double()>;
double steady_seconds();

/// "40 s", "12 min", "3 h 20 min"
std::string duration_text(double seconds);

/// A callback for Settings::progress: draws a bar with the time left on a terminal, elsewhere a
/// line every ten seconds, and throws Cancelled once the user has asked to stop. The time left
/// follows from the pace since the share was last lower than before. Refers to `console`. A share
/// of 1 wipes the bar.
std::function<void(const std::string& phase, double share)>
progress_of(Console& console, const Clock& clock = steady_seconds);

/// Wipes what the bar has left on the line.
void wipe_progress(Console& console);

/// \throws Cancelled once the user has asked to stop
void stop_if_cancelled(const Console& console);

/// A number the user may type, with its accepted range, both ends included.
struct NumberOption {
    std::string name; ///< "--degree"
    double min = 0, max = 0;
    bool whole = false; ///< integers only
};

/// The option's number; nothing if it was not given. What is wrong is added to `problems`.
std::optional<double> number_of(const Arguments& arguments, const NumberOption& option,
                                std::vector<Problem>& problems);

/// All numbers of a repeatable option.
std::vector<double> numbers_of(const Arguments& arguments, const NumberOption& option,
                               std::vector<Problem>& problems);

/// A share typed as 0.001 or 0.1%, above 0 and below 1.
std::optional<double> share_of(const Arguments& arguments, const std::string& name,
                               std::vector<Problem>& problems);

/// The option's text; empty if it was not given.
std::string text_of(const Arguments& arguments, const std::string& name);

/// All texts of a repeatable option.
std::vector<std::string> texts_of(const Arguments& arguments, const std::string& name);

/// The folder that --out names; empty if it was not given. \throws InputError for an empty name
std::string out_folder(const Arguments& arguments);

/// Makes the folder that --out names, if it does: what is wrong with it should not come to light
/// after minutes of solving. \throws OutputError
void try_folder(const std::string& folder);

/// The board file that an option names for an answer: no folder, and none of the inputs. Empty
/// without the option. \throws InputError
std::string answer_file(const Arguments& arguments, const std::string& option);

/// Understands the words after the program's name and runs the verb. Returns an ExitStatus.
/// \throws InputError for an unknown verb or option, whatever the verb throws
int run_command_line(const std::vector<std::string>& words, Console& console);

} // namespace vrid
