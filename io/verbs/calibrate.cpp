#include <algorithm>
#include <cmath>
#include <ostream>

#include "io/design/design_values.hpp"
#include "io/design/edit_board.hpp"
#include "io/design/new_board.hpp"
#include "io/design/read_bench.hpp"
#include "io/materials/material_library.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/calibration_report.hpp"
#include "io/write/caution.hpp"
#include "io/write/design_path.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

// Six digits say more than any bench does.
std::vector<Change> changes_of(const Calibration& calibration) {
    std::vector<Change> changes;
    for (const FittedValue& value : calibration.values) {
        if (value.after != value.before) {
            changes.push_back(
                {path_of(value.id), round_significant(from_si(value.id, value.after), 6), ""});
        }
    }
    return changes;
}

/// Why the fit should not become a board: the reading that is farthest off. Empty: all fit.
std::string reason_against(const Calibration& calibration) {
    const FittedReading* worst = nullptr;
    for (const FittedReading& reading : calibration.readings) {
        if (!reading.fits &&
            (worst == nullptr || std::abs(reading.residual) > std::abs(worst->residual))) {
            worst = &reading;
        }
    }
    return worst == nullptr
               ? ""
               : "the reading of " + number_name(worst->reading.number) + " is " +
                     fixed(std::abs(worst->residual), 1) + " standard deviations off after the fit";
}

int run_calibrate(const Arguments& arguments, Console& console) {
    const Settings settings = study_options(arguments, console);
    const std::string out = answer_file(arguments, "--out");
    const MaterialLibrary library = load_material_library();
    const std::string& file = arguments.positional[0];
    const BoardText source = board_text(file);
    const Board board = board_argument(source, library, arguments, console).board;
    check_answer(out, "--out", {source, board, library});
    const Bench bench = read_bench(arguments.positional[1], board, library);
    stop_if_cancelled(console);
    const std::vector<NumberId> numbers = each_of(bench.readings, &BenchReading::number);
    Session session(board, settings, cases_of(numbers));
    const Calibration calibration = calibrate(session, bench);
    wipe_progress(console);
    tell_warnings(file, calibration.warnings, console);
    if (!out.empty()) {
        const std::string why = arguments.has("--force") ? "" : reason_against(calibration);
        if (why.empty()) {
            const std::string text = edit_board(source, library, changes_of(calibration));
            write_file(out, new_board_text(text, file, "calibrate"));
            console.err << "the fitted board is in " << out << "\n";
        } else {
            console.err << "no board was written to " << out << ": " << why
                        << "; --force writes it anyway\n";
        }
    }
    console.out << (arguments.has("--json")
                        ? calibration_json(board, calibration)
                        : calibration_text(board, calibration) + caution_text());
    const bool fits = std::ranges::all_of(calibration.readings, &FittedReading::fits);
    return fits ? exit_done : exit_limit_exceeded;
}

std::vector<Option> calibrate_options() {
    return with_options(
        {{"--out", "FILE",
          "Write the board file with the fitted values: the same text with other numbers. Only if "
          "every reading fits."},
         {"--force", "", "Write it even if a reading does not fit."},
         strict_option(),
         {"--json", "", "Print one JSON document instead of tables."}},
        element_option_table());
}

} // namespace

Verb calibrate_verb() {
    return {"calibrate",
            "what bench readings of a built board say about its materials",
            "BOARD BENCH",
            2,
            2,
            "Changes chosen values of the board, each held near its nominal value by its "
            "tolerance, until the computed numbers agree with the readings within their standard "
            "deviations (regularised least squares). Prints the fitted values with standard "
            "deviations, the readings before and after, values that the readings cannot tell "
            "apart, and the reading that does not fit.\n\nThe bench file has one [[reading]] for "
            "each number (number, value, sd, in bench units) and one [[free]] for each value that "
            "may change (value, optional min and max). Exit status 1: a reading does not fit; then "
            "no board is written, unless --force is given.",
            calibrate_options(),
            {"vrid calibrate board.toml bench.toml --out fitted.toml"},
            run_calibrate,
            true};
}

} // namespace vrid
