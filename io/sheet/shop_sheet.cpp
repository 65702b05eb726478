#include "io/sheet/shop_sheet.hpp"

#include <cctype>
#include <cmath>
#include <numbers>

#include "io/write/study_text.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/surface.hpp"
#include "solver/cooling/mould.hpp"

namespace vrid {
namespace {

PressHeights found_mould_line(const Board& board, const StudyResult& released) {
    PressHeights found{PressLine::found_mould, {}, Profile{}, stretch_warnings(released)};
    for (const MouldPoint& point : mould_line(board, *released.cases.front().cooled)) {
        found.heights.x.push_back(point.x);
        found.heights.value.push_back(point.mould);
        found.change->x.push_back(point.x);
        found.change->value.push_back(point.change);
    }
    return found;
}

std::optional<PressHeights> press_heights(const Board& board, const StudyResult* released) {
    if (board.cure && board.cure->mould) {
        return PressHeights{PressLine::existing_mould, *board.cure->mould};
    }
    if (needs_release(board)) {
        return released == nullptr ? std::nullopt
                                   : std::optional(found_mould_line(board, *released));
    }
    return board.rest_shape
               ? std::optional(PressHeights{PressLine::wanted_shape, *board.rest_shape})
               : std::nullopt;
}

} // namespace

bool needs_release(const Board& board) {
    return board.cure && !board.cure->mould && board.rest_shape;
}

ShopSheet shop_sheet(const Board& board, const std::vector<Tolerance>& tolerances,
                     const SheetOptions& options, const StudyResult* released) {
    const std::vector<BoardPart> parts = board_parts(board);
    ShopSheet sheet;
    sheet.board = board;
    sheet.options = options;
    sheet.core = core_blank(board, parts, options.step);
    sheet.pieces = cut_pieces(board, parts);
    sheet.rolls = roll_uses(board, sheet.pieces, options.boards);
    sheet.edges = edge_runs(board);
    sheet.steps = lay_up_steps(board, parts);
    add_spread(sheet.steps, board, parts, tolerances);
    sheet.press = press_heights(board, released);
    return sheet;
}

std::string piece_name(const CutPiece& piece) {
    return piece.layer + (piece.mirror_image ? " (mirror)" : "");
}

std::vector<std::string> mirror_notes(const ShopSheet& sheet) {
    std::vector<std::string> notes;
    for (const CutPiece& piece : sheet.pieces) {
        if (!piece.on_roll) {
            add_once(notes, piece_name(piece) + ": the board was computed with every ply of " +
                                piece.made_of +
                                " at the opposite angle here, which no piece from its roll has, "
                                "turned over or not. Cut as listed it is another laminate: give "
                                "this side a layer of its own in the board file, as it is cut.");
        }
    }
    return notes;
}

std::string piece_file(const ShopSheet& sheet, std::size_t piece) {
    const CutPiece& cut = sheet.pieces[piece];
    std::string name =
        "piece-" + std::string(piece + 1 < 10 ? "0" : "") + std::to_string(piece + 1) + "-";
    for (const char letter : cut.layer) {
        const auto code = static_cast<unsigned char>(letter);
        const bool plain = code < 128 && std::isalnum(code) != 0;
        if (plain) {
            name += static_cast<char>(std::tolower(code));
        } else if (name.back() != '-') {
            name += '-';
        }
        if (name.size() > 60) {
            break;
        }
    }
    while (name.back() == '-') {
        name.pop_back();
    }
    return name + (cut.mirror_image ? "-mirror" : "");
}

std::vector<ResinRow> resin_rows(const ShopSheet& sheet) {
    std::vector<ResinRow> rows;
    for (const CutPiece& piece : sheet.pieces) {
        if (piece.resin_mass == 0) {
            continue;
        }
        if (rows.empty() || rows.back().layer != piece.layer) {
            rows.push_back({piece.layer, sheet.board.fabrics.at(piece.made_of).resin, 0});
        }
        rows.back().mass += piece.resin_mass;
    }
    const double glue = sheet.board.mass_only.resin * area(sheet.board.planform);
    if (glue > 0) {
        rows.push_back({"glue lines", "", glue});
    }
    return rows;
}

std::vector<PressRow> press_rows(const ShopSheet& sheet) {
    std::vector<PressRow> rows;
    if (!sheet.press) {
        return rows;
    }
    constexpr double step = 0.05; // [m]
    const auto [tail, nose] = x_extent(sheet.board.planform);
    const RestShape surface = surface_of(sheet.press->heights);
    const std::optional<Profile>& change = sheet.press->change;
    const auto add = [&](double x) {
        rows.push_back({x, surface.z(x), change ? surface_of(*change).z(x) : 0});
    };
    add(tail);
    for (double i = std::floor(tail / step) + 1; i * step < nose; ++i) {
        add(i * step);
    }
    add(nose);
    return rows;
}

std::string press_file(const PressHeights& press) {
    return press.line == PressLine::wanted_shape ? "rest_shape.csv" : "mould.csv";
}

double roll_degrees(const CutPiece& piece) {
    const double turns = piece.roll_angle / std::numbers::pi; // half turns: a roll has two ends
    return from_si("angle_deg", std::numbers::pi * (turns - std::ceil(turns - 0.5)));
}

} // namespace vrid
