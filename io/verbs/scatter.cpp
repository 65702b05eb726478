#include <ostream>

#include "io/design/design_values.hpp"
#include "io/design/number_names.hpp"
#include "io/materials/material_library.hpp"
#include "io/materials/tolerances.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/caution.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/scatter_report.hpp"
#include "io/write/staged_files.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

// The board file's limits on the numbers asked for.
std::vector<NumberLimits> limits_of(const Board& board, const std::vector<NumberId>& numbers) {
    return each_of(numbers, [&](const NumberId& number) {
        const Limit limit = limit_of(board, number).value_or(Limit{});
        return NumberLimits{limit.min, limit.max};
    });
}

struct ScatterOptions {
    Settings settings;
    EdgeCondition edge;
    SampleOptions samples;
    std::size_t rows = 0;
};

ScatterOptions scatter_options_of(const Arguments& arguments, Console& console) {
    ScatterOptions options;
    options.edge = one_condition(arguments);
    options.settings = study_options(arguments, console);
    std::vector<Problem> problems;
    options.rows = static_cast<std::size_t>(
        number_of(arguments, {"--rows", 1, 100000, true}, problems).value_or(8));
    constexpr int usual_samples = 24; // with the nominal board 25 solves
    options.samples.samples = static_cast<int>(
        number_of(arguments, {"--samples", 0, 1000000, true}, problems).value_or(usual_samples));
    if (options.samples.samples > 0 && options.samples.samples < least_controlled) {
        problems.push_back({"--samples", "found '" + text_of(arguments, "--samples") +
                                             "'; accepted: 0, or " +
                                             std::to_string(least_controlled) + " to 1000000"});
    }
    options.samples.seed = static_cast<std::uint64_t>(
        number_of(arguments, {"--seed", 0, 4294967295.0, true}, problems).value_or(1));
    throw_if_any(problems);
    return options;
}

// Tolerances of what is no design value, and limits on what the default does not compute.
void tell_left_out(const Arguments& arguments, const Board& board,
                   const std::vector<NumberId>& numbers, Console& console) {
    const std::string start = arguments.positional.front() + ": warning: ";
    for (const std::string& path : tolerances_without_effect(board)) {
        console.err << start << "the tolerance of " << path
                    << " is left out: it is no design value that moves a number\n";
    }
    for (const auto& [name, limit] : board.limits) {
        const auto number = find_number(name, board).request;
        if (!arguments.has("--of") && number && !contains(numbers, *number)) {
            console.err << start << "no yield for the limits of " << name
                        << ": it is computed only when --of names it\n";
        }
    }
}

int run_scatter(const Arguments& arguments, Console& console) {
    const ScatterOptions options = scatter_options_of(arguments, console);
    const std::string folder = out_folder(arguments);
    const MaterialLibrary library = load_material_library();
    const std::string& file = arguments.positional.front();
    const NamedBoard named = board_argument(file, library, arguments, console);
    const Board& board = named.board;
    const std::vector<NumberId> numbers = numbers_asked(arguments, board, options.settings.bend);
    const std::vector<Tolerance> tolerances = tolerances_of(board, library);
    tell_left_out(arguments, board, numbers, console);
    try_folder(folder);
    stop_if_cancelled(console);
    Session session(board, options.settings, cases_of(numbers));
    ScatterReport report{
        board,
        first_order_scatter(session, numbers, limits_of(board, numbers), tolerances, options.edge),
        options.samples, named.set, condition_of(numbers, options.edge)};
    if (options.samples.samples > 0) {
        const auto board_with = [&](const SetValues& set) {
            return with_values(board, set, named.named);
        };
        add_samples(report.scatter, session, tolerances, board_with, options.samples, options.edge);
    }
    wipe_progress(console);
    tell_warnings(file, report.scatter.warnings, console);
    if (!folder.empty()) {
        StagedFiles files(folder);
        files.add("scatter.json", scatter_json(report));
        files.publish_as("scatter");
        console.err << "results are in " << folder << "\n";
    }
    console.out << (arguments.has("--json") ? scatter_json(report)
                                            : scatter_text(report, options.rows) + caution_text());
    return exit_done;
}

std::vector<Option> scatter_options() {
    return with_options(
        {{"--of", "NAMES",
          "Numbers, separated by commas, as for sense. Default: mass, balance point, all bench "
          "cases.",
          true, known_numbers()},
         {"--samples", "N",
          "Boards drawn at random and solved, on all cores; 0: first order only. Default: 24."},
         {"--seed", "S", "Seed of the random numbers. Default: 1."},
         {"--rows", "N", "Sources shown for each number. Default: 8."},
         {"--out", "DIR", "Write scatter.json into this folder, which is created if needed."},
         bend_option(),
         set_option(),
         strict_option(),
         {"--json", "", "Print scatter.json's content instead of tables."}},
        numbers_option_table());
}

} // namespace

Verb scatter_verb() {
    return {
        "scatter",
        "how the numbers scatter in production, what causes it, what a tighter tolerance buys",
        "BOARD",
        1,
        1,
        "Every design value scatters from board to board by the standard deviation that "
        "[tolerance] in the board file gives it, or by the default of the material library (common "
        "practice, no source, where it says so). Each value is independent of all others, each "
        "core station too; a shift of the whole core is core.thickness_scale.\n\nTo first order "
        "the scatter of a number follows from its exact derivatives, with the share of each source "
        "and what halving it would buy. How far that holds is found by boards drawn at random and "
        "solved: only their difference from the linear model is sampled (a control variate), so "
        "that 24 boards know the deviation and the yield as well as thousands would alone; each is "
        "printed with its standard error, of the sampling only. The yield is the share of boards "
        "inside the board file's [limits]; a number without limits has none.",
        scatter_options(),
        {"vrid scatter board.toml --of nose-twist,mass",
         "vrid scatter board.toml --of nose-twist --samples 100 --seed 7"},
        run_scatter,
        true};
}

} // namespace vrid
