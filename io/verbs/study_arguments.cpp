#include "io/verbs/study_arguments.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <ostream>
#include <sstream>

#include "io/design/number_names.hpp"
#include "io/design/what_if.hpp"
#include "io/write/design_path.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/bend.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {

namespace {

const NumberOption degree_option{"--degree", 1, 6, true};
const NumberOption size_option{"--size-mm", 1, 1000, false};
const NumberOption threads_option{"--threads", 1, 1024, true};

/// The chosen cases; "all" among them means all that the board allows.
std::vector<std::string> chosen_cases(const Arguments& arguments, std::vector<Problem>& problems) {
    const std::vector<std::string> names = each_of(bench_cases(), &CaseInfo::name);
    std::vector<std::string> chosen;
    for (const std::string& name : texts_of(arguments, "--case")) {
        if (name == "all") {
            return {};
        }
        if (!contains(names, name)) {
            std::string message = "no case is named '" + name + "'";
            message.append(did_you_mean(name, names)).append("; accepted: all");
            for (const std::string& known : names) {
                message.append(", ").append(known);
            }
            problems.push_back({"--case", message});
        } else if (!contains(chosen, name)) {
            chosen.push_back(name);
        }
    }
    return chosen;
}

// Travels in mm between commas.
std::vector<double> travels_of(const Arguments& arguments, std::vector<Problem>& problems) {
    std::vector<double> travels;
    for (const std::string& text : texts_of(arguments, "--bend")) {
        std::istringstream words(text);
        std::string word;
        while (std::getline(words, word, ',')) {
            double value = 0;
            const char* end = word.data() + word.size();
            const auto read = std::from_chars(word.data(), end, value);
            const double travel = value / bench_unit(Unit::length).per_si;
            if (read.ec != std::errc{} || read.ptr != end ||
                !(travel > 0 && travel <= most_travel)) {
                problems.push_back({"--bend", "found '" + word +
                                                  "'; accepted: travels in mm, above 0 and up "
                                                  "to 1000, with commas between"});
                continue;
            }
            travels.push_back(travel);
        }
    }
    sort_distinct(travels);
    return travels;
}

} // namespace

Option strict_option() {
    return {"--strict", "",
            "Treat warnings about the board file as errors: what can be built but hardly ever is "
            "(vrid check lists it)."};
}

Option set_option() {
    std::vector<std::string> settable = kind_patterns();
    std::erase_if(settable, [](const std::string& path) { return path.find('*') != path.npos; });
    return {"--set", "PATH=VALUE",
            "Compute the board with this value instead of the file's: a what-if without a new "
            "file, such as --set core.thickness_scale=1.05 or --set stance.width_mm=560. May be "
            "repeated; the output names what was set.",
            true, settable};
}

Arguments without_set(Arguments arguments) {
    arguments.options.erase("--set");
    return arguments;
}

NamedBoard board_argument(const BoardText& source, const MaterialLibrary& library,
                          const Arguments& arguments, Console& console,
                          std::vector<Problem>* warnings) {
    NamedBoard read = read_what_if(source, library, settings_of(texts_of(arguments, "--set")));
    std::vector<Problem> found = judged_warnings(read);
    const std::vector<Problem> idle = unknown_limits(read);
    found.insert(found.end(), idle.begin(), idle.end());
    if (arguments.has("--strict")) {
        throw_if_any(found);
    }
    for (const Problem& warning : found) {
        console.err << warning.place << ": warning: " << warning.message << "\n";
    }
    if (warnings != nullptr) {
        *warnings = std::move(found);
    }
    return read;
}

NamedBoard board_argument(const std::string& path, const MaterialLibrary& library,
                          const Arguments& arguments, Console& console,
                          std::vector<Problem>* warnings) {
    return board_argument(board_text(path), library, arguments, console, warnings);
}

Option flat_option() {
    return {"--flat", "", "Compute on the flat blank, without camber, rocker and upturned tips."};
}

Option bend_option() {
    return {"--bend", "MM,MM",
            "Also bend the board to these travels in mm, centre down and tips up: force, "
            "stiffness, flattening there, and the twist stiffness while bent.",
            true};
}

std::vector<Option> study_option_table() {
    return {{"--case", "NAME",
             "Run this case only; may be repeated. Default: all that the board allows.", true,
             each_of(bench_cases(), &CaseInfo::name)},
            {"--rel-error", "SHARE",
             "Refine until every error bar is below this share of its number, 0.1% or 0.001; exit "
             "status "
             "1 if that cannot be reached."},
            {"--degree", "P", "Polynomial degree of the elements, 1 to 6."},
            {"--size-mm", "MM", "Longest side of an element."},
            bend_option(),
            flat_option(),
            {"--threads", "N", "Threads to use. Default: one for every core."},
            set_option(),
            strict_option()};
}

StudyOptions study_options(const Arguments& arguments, Console& console) {
    std::vector<Problem> problems;
    StudyOptions options;
    options.cases = chosen_cases(arguments, problems);
    options.rel_error = share_of(arguments, "--rel-error", problems);
    options.degree = static_cast<int>(number_of(arguments, degree_option, problems).value_or(0));
    options.threads = static_cast<int>(number_of(arguments, threads_option, problems).value_or(0));
    options.max_size =
        number_of(arguments, size_option, problems).value_or(0) / bench_unit(Unit::length).per_si;
    options.bend = travels_of(arguments, problems);
    options.flat = arguments.has("--flat");
    options.progress = progress_of(console);
    throw_if_any(problems);
    return options;
}

SolvedBoard read_for_study(const std::string& path, const MaterialLibrary& library,
                           const Arguments& arguments, Console& console) {
    const auto start = std::chrono::steady_clock::now();
    SolvedBoard solved;
    NamedBoard read = board_argument(path, library, arguments, console, &solved.warnings);
    solved.board = std::move(read.board);
    solved.set = std::move(read.set);
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
    solved.seconds_read = spent.count();
    solved.outline = outline_figures(solved.board);
    solved.mass = board_mass(solved.board);
    return solved;
}

void tell_warnings(const std::string& file, const std::vector<std::string>& warnings,
                   Console& console) {
    for (const std::string& warning : warnings) {
        console.err << file << ": warning: " << warning << "\n";
    }
}

void solve_into(SolvedBoard& solved, const StudyOptions& options, Console& console) {
    stop_if_cancelled(console);
    solved.study = run_study(solved.board, options);
    wipe_progress(console);
    tell_warnings(solved.board.file, solved.study.warnings, console);
    if (!solved.study.rel_error_met) {
        tell_warnings(solved.board.file, {"the wanted error bar could not be reached"}, console);
    }
}

} // namespace vrid
