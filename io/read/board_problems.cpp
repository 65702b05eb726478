#include "io/read/board_problems.hpp"

#include "io/toml/accepted.hpp"
#include "io/toml/fault_words.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/check_board.hpp"
#include "solver/response/bare_place.hpp"
#include "solver/response/thin_core.hpp"

namespace vrid {

namespace {

std::string shown_mm(double metres) {
    return number_text(round_significant(from_si("x_mm", metres), 6));
}

std::string where(const Eigen::Vector2d& at) {
    return "at x = " + shown_mm(at.x()) + ", y = " + shown_mm(at.y()) + " mm";
}

Problem thin_core_problem(const ThinCore& thin, const KeyPlaces& places) {
    const std::string path =
        thin.layer.empty() ? "core.cross_mm" : "layer." + thin.layer + ".inlay";
    const std::string core =
        "the core is " + shown_mm(thin.thickness) + " mm thick " + where(thin.at);
    return {place_of(places, path),
            path + ": " + core +
                (thin.layer.empty()
                     ? "; accepted: a core above 0 everywhere on the board"
                     : " and " + shown_mm(thin.inlaid) +
                           " mm are let into it; accepted: inlays thinner than the core")};
}

} // namespace

std::vector<Problem> section_problems(const Board& board, const KeyPlaces& places) {
    std::vector<Problem> problems;
    if (const auto bare = bare_place(board)) {
        problems.push_back({place_of(places, "layer"),
                            "layer: no layer lies " + where(*bare) +
                                ", where the board has no thickness; accepted: layers that cover "
                                "the whole planform together"});
    }
    if (const auto thin = thin_core(board)) {
        problems.push_back(thin_core_problem(*thin, places));
    }
    return problems;
}

void check_made_board(const Board& board) {
    std::vector<Problem> problems;
    for (const BoardFault& fault : check_board(board)) {
        if (!is_warning(fault)) {
            problems.push_back(fault_words(fault));
        }
    }
    if (problems.empty()) {
        problems = section_problems(board);
    }
    throw_if_any(std::move(problems));
}

} // namespace vrid
