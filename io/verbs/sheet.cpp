#include <chrono>
#include <filesystem>
#include <ostream>

#include "io/materials/material_library.hpp"
#include "io/materials/tolerances.hpp"
#include "io/sheet/shop_sheet.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"

namespace vrid {
namespace {

// When the board file was last written, "2026-01-31 08:05 UTC"; empty if the system cannot say.
std::string date_of(const std::string& path) {
    std::error_code unknown;
    const auto written = std::filesystem::last_write_time(path, unknown);
    if (unknown) {
        return "";
    }
    const auto time = std::chrono::system_clock::to_time_t(
        std::chrono::time_point_cast<std::chrono::system_clock::duration>(
            std::chrono::file_clock::to_sys(written)));
    std::tm parts{};
    if (gmtime_r(&time, &parts) == nullptr) {
        return "";
    }
    char text[40];
    const std::size_t length = std::strftime(text, sizeof text, "%Y-%m-%d %H:%M UTC", &parts);
    return {text, length};
}

SheetOptions options_of(const Arguments& arguments) {
    std::vector<Problem> problems;
    SheetOptions options;
    options.step = to_si(
        "step_mm", number_of(arguments, {"--step-mm", 1, 1000, false}, problems).value_or(10));
    options.boards =
        static_cast<int>(number_of(arguments, {"--boards", 1, 10000, true}, problems).value_or(1));
    if (text_of(arguments, "--out").empty()) {
        problems.push_back({"--out", "missing or empty; accepted: the folder for the papers"});
    }
    throw_if_any(problems);
    return options;
}

// What the press does to the board; nothing where no paper tells it.
std::optional<StudyResult> released(const Board& board, Console& console) {
    if (!needs_release(board)) {
        return std::nullopt;
    }
    SolvedBoard solved;
    solved.board = board;
    StudyOptions options;
    options.cases = {"release"};
    options.progress = progress_of(console);
    solve_into(solved, options, console);
    return std::move(solved.study);
}

int run_sheet(const Arguments& arguments, Console& console) {
    SheetOptions options = options_of(arguments);
    const std::string folder = text_of(arguments, "--out");
    const MaterialLibrary library = load_material_library();
    const std::string& path = arguments.positional.front();
    const Board board = board_argument(path, library, arguments, console).board;
    options.date = date_of(path);
    StagedFiles files(folder);
    const std::optional<StudyResult> study = released(board, console);
    const ShopSheet sheet =
        shop_sheet(board, tolerances_of(board, library), options, study ? &*study : nullptr);
    stop_if_cancelled(console);
    add_tables(sheet, files);
    add_drawings(sheet, files);
    files.add("sheet.html", sheet_html(sheet));
    const std::size_t count = files.names().size();
    files.publish();
    console.out << sheet_text(sheet);
    console.err << count << " files are in " << folder << "; sheet.html is for printing\n";
    return exit_done;
}

} // namespace

Verb sheet_verb() {
    return {
        "sheet",
        "papers for the shop: sanding, cutting, outlines to scale, resin, weights",
        "BOARD",
        1,
        1,
        "Writes what the people at sander, cutting table and press need of a board, so that "
        "nothing is typed twice: sanding.csv (core thickness along the blank), cutting.csv (every "
        "piece with its direction on the roll), rolls.csv, strips.csv, edge.csv, resin.csv, "
        "weights.csv (what the board should weigh after each step, and the usual scatter), "
        "outline.svg and one .svg a piece, true to scale with a line of 100 mm to measure after "
        "printing, each with its points as .csv, and sheet.html: all of it on A4 pages with boxes "
        "for what is measured. Of the press: mould.csv, the heights of the mould every 50 mm - the "
        "mould that exists (mould_z_mm), or of a board with [cure] and [rest_shape] the one that "
        "gives the wanted shape, for which the case release is solved; without [cure] "
        "rest_shape.csv, the wanted shape, which is no mould line.\n\nPieces are net: as they lie "
        "on the board. How much of a roll "
        "they take is given for fabrics with roll_width_mm. The spread of the weights is one "
        "standard deviation, from [tolerance] in the board file and the defaults of the material "
        "library.\n\nThe files appear together when all of them are complete, or not at all. A "
        "board can break and hurt its rider: papers do not prove its strength.",
        {{"--out", "DIR", "Folder for the papers, which is created if needed. Required."},
         {"--step-mm", "MM", "Step of the sanding table. Default: 10."},
         {"--boards", "N", "Work out rolls and resin for this many boards. Default: 1."},
         strict_option()},
        {"vrid sheet board.toml --out papers", "vrid sheet board.toml --out papers --boards 20"},
        run_sheet};
}

} // namespace vrid
