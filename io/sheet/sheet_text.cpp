#include "io/sheet/shop_sheet.hpp"
#include "io/write/caution.hpp"
#include "io/write/number.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

std::string text_mm(double value, int decimals = 1) {
    return fixed(from_si("x_mm", value), decimals);
}

std::string text_grams(double value) {
    return fixed(from_si("mass_g", value), 1);
}

Table weights(const ShopSheet& sheet) {
    Table table{
        {left("step"), decimal("adds", "g"), decimal("board so far", "g"), decimal("+-", "g")}};
    for (const LayUpStep& step : sheet.steps) {
        table.rows.push_back(
            {step.name, text_grams(step.mass), text_grams(step.sum), text_grams(step.spread)});
    }
    return table;
}

Table pieces(const ShopSheet& sheet) {
    Table table{{right("piece"), left("layer"), left("of"), decimal("roll", "deg"),
                 decimal("length", "mm"), decimal("width", "mm"), decimal("dry", "g")}};
    for (std::size_t i = 0; i < sheet.pieces.size(); ++i) {
        const CutPiece& piece = sheet.pieces[i];
        table.rows.push_back({std::to_string(i + 1), piece_name(piece), piece.made_of,
                              piece.fabric ? fixed(roll_degrees(piece), 1) : "",
                              text_mm(piece.length), text_mm(piece.width),
                              text_grams(piece.dry_mass)});
    }
    return table;
}

std::string roll_line(const RollUse& roll, int boards) {
    std::string line = "  " + roll.fabric + ": ";
    if (roll.roll_width == 0) {
        return line + fixed(roll.area, 3) + " m2 net; roll_width_mm is not given\n";
    }
    line += fixed(roll.length, 2) + " m of roll for " + std::to_string(boards) +
            (boards == 1 ? " board, " : " boards, ") + fixed(100 * roll.waste, 0) + " % waste";
    if (roll.joined > 0) {
        line += "; " + std::to_string(roll.joined) +
                (roll.joined == 1 ? " piece is" : " pieces are") +
                " wider than the roll and must be joined";
    }
    return line + "\n";
}

std::string press_words_of(const PressHeights& press) {
    const std::string line =
        press.line == PressLine::existing_mould ? "the mould that exists (mould_z_mm under [cure])"
        : press.line == PressLine::found_mould
            ? "the mould that gives the wanted shape: that shape minus what the press does, known "
              "to 30 % and worse until a board was measured"
            : "the wanted shape, no mould line: there is no [cure]";
    return wrapped(press_file(press) + ": " + line, 78, 2) + "\n";
}

} // namespace

std::string sheet_text(const ShopSheet& sheet) {
    std::string all = sheet.board.name + ", file " + sheet.board.hash + "\n\n";
    if (sheet.core) {
        const Extent& size = sheet.core->size;
        all += "  core blank " + text_mm(size.x[1] - size.x[0]) + " x " +
               text_mm(size.y[1] - size.y[0]) + " x " + text_mm(sheet.core->thickest, 2) +
               " mm\n\n";
    }
    all += sheet.press ? press_words_of(*sheet.press) : "";
    all += text(pieces(sheet)) + "\n";
    for (const std::string& note : mirror_notes(sheet)) {
        all += wrapped(note, 78, 2) + "\n";
    }
    for (const RollUse& roll : sheet.rolls) {
        all += roll_line(roll, sheet.options.boards);
    }
    return all + (sheet.rolls.empty() ? "" : "\n") + text(weights(sheet)) + caution_text();
}

} // namespace vrid
