#include "solver/shop/core_blank.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/same_place.hpp"
#include "solver/shop/core_volume.hpp"

namespace vrid {

namespace {

Region all_woods(const std::vector<BoardPart>& parts) {
    Region where;
    for (const BoardPart& part : parts) {
        if (part.of == PartKind::core) {
            where = united(where, part.where);
        }
    }
    return where;
}

double slope_at(const Board& board, double x) {
    constexpr double h = 1e-5; // [m]: exact enough for a cubic, both sides of a kink
    return (core_thickness(board, x + h, 0) - core_thickness(board, x - h, 0)) / (2 * h);
}

std::vector<SandingRow> sanding_rows(const Board& board, const Range& ends, double step) {
    std::vector<SandingRow> rows;
    const auto add = [&](double x, bool station) {
        rows.push_back({x, x - ends[0], core_thickness(board, x, 0), slope_at(board, x), station});
    };
    for (const double x : board.core->thickness.x) {
        if (x >= ends[0] - same_place && x <= ends[1] + same_place) {
            add(x, true);
        }
    }
    const std::size_t stations = rows.size();
    const auto steps = static_cast<long>(std::floor((ends[1] - ends[0] - same_place) / step));
    for (long i = 0; i <= steps + 1; ++i) {
        const double x = i <= steps ? ends[0] + static_cast<double>(i) * step : ends[1];
        const bool known =
            std::any_of(rows.begin(), rows.begin() + static_cast<long>(stations),
                        [&](const SandingRow& row) { return std::abs(row.x - x) <= same_place; });
        if (!known) {
            add(x, false);
        }
    }
    std::ranges::stable_sort(rows, {}, &SandingRow::x);
    return rows;
}

double thickest(const Board& board, const std::vector<SandingRow>& rows) {
    double most = 0;
    for (const SandingRow& row : rows) {
        most = std::max(most, row.thickness);
        for (std::size_t i = 0; board.core->cross && i < board.core->cross->x.size(); ++i) {
            most = std::max(most, core_thickness(board, row.x, board.core->cross->x[i]));
        }
    }
    return most;
}

// One half's strips (or both sides' if `sides` is two), from the centre line to the blank's border.
void add_strips(const std::vector<Strip>& strips, const Region& blank, int side,
                std::vector<StripCut>& cuts) {
    const Extent box = extent(blank);
    const double reach = side > 0 ? box.y[1] : -box.y[0];
    double from = 0;
    for (std::size_t i = 0; from < reach - same_place; i = (i + 1) % strips.size()) {
        const Strip& strip = strips[i];
        const double to = from + strip.width;
        const Range y = side > 0 ? Range{from, to} : Range{-to, -from};
        const Region piece = common(blank, rectangle_region(box.x, y));
        from = to;
        if (piece.empty()) {
            continue;
        }
        const Extent size = extent(piece);
        StripCut cut{strip.material, "", strip.x, 1, strip.width, size.x[1] - size.x[0]};
        if (strip.x) {
            cut.fill = strip.fill.empty() ? strips.front().material : strip.fill;
        }
        const auto like = std::ranges::find_if(cuts, [&](const StripCut& each) {
            return each.material == cut.material && each.fill == cut.fill && each.x == cut.x &&
                   each.width == cut.width;
        });
        if (like == cuts.end()) {
            cuts.push_back(cut);
        } else {
            ++like->count;
            like->length = std::max(like->length, cut.length);
        }
    }
}

} // namespace

std::optional<CoreBlank> core_blank(const Board& board, const std::vector<BoardPart>& parts,
                                    double step) {
    const Region woods = all_woods(parts);
    if (!board.core || woods.empty()) {
        return std::nullopt;
    }
    CoreBlank blank;
    blank.size = extent(woods);
    blank.sanding = sanding_rows(board, blank.size.x, step);
    blank.thickest = thickest(board, blank.sanding);
    add_strips(board.core->strips, woods, 1, blank.strips);
    const bool own = !board.core->strips_right.empty();
    add_strips(own ? board.core->strips_right : board.core->strips, woods, -1, blank.strips);
    return blank;
}

} // namespace vrid
