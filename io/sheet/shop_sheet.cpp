#include "io/sheet/shop_sheet.hpp"

#include <cctype>
#include <cmath>
#include <numbers>

#include "io/write/units.hpp"
#include "mesh/board/surface.hpp"

namespace vrid {

ShopSheet shop_sheet(const Board& board, const std::vector<Tolerance>& tolerances,
                     const SheetOptions& options) {
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
    if (board.cure) {
        sheet.mould = board.cure->mould;
    }
    return sheet;
}

std::string piece_name(const CutPiece& piece) {
    return piece.layer + (piece.mirror_image ? " (mirror)" : "");
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

std::vector<std::array<double, 2>> mould_rows(const ShopSheet& sheet) {
    std::vector<std::array<double, 2>> rows;
    if (!sheet.mould) {
        return rows;
    }
    constexpr double step = 0.05; // [m]
    const auto [tail, nose] = x_extent(sheet.board.planform);
    const RestShape surface = surface_of(*sheet.mould);
    const auto add = [&](double x) { rows.push_back({x, surface.z(x)}); };
    add(tail);
    for (double i = std::floor(tail / step) + 1; i * step < nose; ++i) {
        add(i * step);
    }
    add(nose);
    return rows;
}

double roll_degrees(const CutPiece& piece) {
    const double turns = piece.roll_angle / std::numbers::pi; // half turns: a roll has two ends
    return from_si("angle_deg", std::numbers::pi * (turns - std::ceil(turns - 0.5)));
}

} // namespace vrid
