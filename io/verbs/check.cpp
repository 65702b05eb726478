#include <ostream>

#include "io/materials/material_library.hpp"
#include "io/toml/accepted.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/board_text.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/mesher.hpp"
#include "solver/study.hpp"

namespace vrid {
namespace {

// As far as a board file may name a station.
NumberOption at_option() {
    const Accepted& station = vrid::accepted("planform.waist_x_mm");
    return {"--at", station.min, station.max, false};
}

// What `solve` would fail at though the file is in order; empty if nothing.
std::string mesh_trouble(const Board& board) {
    try {
        mesh_planform(board, study_mesh_options(board, {}));
    } catch (const SolveError& error) {
        return board.file + ": cannot be solved: " + error.what();
    }
    return "";
}

void check_on_board(const std::vector<double>& at, const Board& board) {
    std::vector<Problem> problems;
    const auto [tail, nose] = x_extent(board.planform);
    const double per_si = bench_unit(Unit::length).per_si;
    for (const double x : at) {
        if (width_at(board.planform, x) <= 0) {
            problems.push_back(
                {"--at", "found '" + number_text(x * per_si) +
                             "'; accepted: a station on the board of " + board.file +
                             ", which reaches from x = " + number_text(tail * per_si) + " to " +
                             number_text(nose * per_si) + " mm"});
        }
    }
    throw_if_any(problems);
}

int run_check(const Arguments& arguments, Console& console) {
    std::vector<Problem> problems;
    std::vector<double> at = numbers_of(arguments, at_option(), problems);
    throw_if_any(problems);
    for (double& x : at) {
        x /= bench_unit(Unit::length).per_si;
    }
    const MaterialLibrary library = load_material_library();
    std::vector<BoardFigures> boards;
    std::vector<Verdicts> verdicts;
    bool exceeded = false;
    std::string trouble;
    for (const std::string& path : arguments.positional) {
        std::vector<Problem> warnings;
        const NamedBoard read = board_argument(path, library, arguments, console, &warnings);
        const Board& board = read.board;
        check_on_board(at, board);
        boards.push_back(board_figures(board, at));
        boards.back().outline.drawn = read.drawn;
        boards.back().set = read.set;
        boards.back().warnings = std::move(warnings);
        verdicts.push_back(
            judge(board.limits, plain_numbers(board, boards.back().outline, boards.back().mass)));
        exceeded = exceeded || any_exceeded(verdicts.back());
        const std::string one = mesh_trouble(board);
        trouble += (trouble.empty() || one.empty() ? "" : "\n") + one;
    }
    if (arguments.has("--json")) {
        console.out << boards_json(boards, verdicts);
    } else {
        for (std::size_t i = 0; i < boards.size(); ++i) {
            console.out << (i == 0 ? "" : "\n\n") << board_text(boards[i], verdicts[i]);
        }
    }
    if (!trouble.empty()) {
        console.err << trouble << '\n';
        return exit_solve;
    }
    return exceeded ? exit_limit_exceeded : exit_done;
}

} // namespace

Verb check_verb() {
    return {"check",
            "say what a board is: outline, mass, layers, EI and GJ",
            "BOARD...",
            1,
            1000,
            "Reads and validates each board file and prints its outline, its mass by material, its "
            "balance point, and at chosen stations the layers with their thickness and the "
            "section's bending stiffness EI and torsional stiffness GJ. The mesh of `solve` is "
            "tried, but nothing is solved; exit status 3: there is no mesh.\n\nNumbers under "
            "[limits] that need no solve (mass, balance_point.x, length, area, sidecut_radius, "
            "EI@X, GJ@X, thickness@X) are checked against them; exit status 1: one was "
            "exceeded.\n\nWhat can be built but "
            "hardly ever is (a sheet of 13 mm, a core that ends short of the contact line) gets a "
            "warning with its place in the file; --strict makes it an error.",
            {{"--at", "MM",
              "Show the layers at this station; may be repeated. Default: contact stations, feet, "
              "waist.",
              true},
             set_option(),
             strict_option(),
             {"--json", "", "Print one JSON document instead of tables."}},
            {"vrid check board.toml", "vrid check board.toml --at -270 --at 0 --at 270"},
            run_check};
}

} // namespace vrid
