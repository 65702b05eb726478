#include <algorithm>
#include <cmath>

#include "io/report/axis.hpp"
#include "io/report/findings.hpp"
#include "io/report/picture_rows.hpp"
#include "io/report/report.hpp"
#include "io/report/svg.hpp"

namespace vrid {
namespace {

constexpr double widening_head = 30;
constexpr double longest_bar = 46; // bar [px]
constexpr double table_step = 50;  // of stations [mm]

struct View {
    Axis x, y;
    double scale = 1; // px per mm
};

std::optional<View> view_of(const FoundOutline& outline) {
    Reach along;
    Reach across;
    for (const auto& [x, y] : outline.drawn) {
        along.add(x);
        across.add(y);
    }
    if (!(along.high > along.low) || !(across.high > across.low)) {
        return std::nullopt;
    }
    const double scale = (picture_width - stations_left - stations_right - 2 * longest_bar) /
                         (along.high - along.low);
    const double high = std::min((across.high - across.low) * scale, 2000.0);
    return View{
        {along.low, along.high, stations_left + longest_bar,
         picture_width - stations_right - longest_bar},
        {across.low, across.high, widening_head + longest_bar + high, widening_head + longest_bar},
        scale};
}

std::string signed_percent(double value) {
    return (value > 0 ? "+" : "") + significant(value, 3) + " %";
}

/// What lies between the outline and its moved copy, cut where the gain changes its sign: one piece
/// as long as it keeps it.
void draw_between(Svg& svg, const Points& on, const Points& off, const std::vector<double>& gain) {
    Points along;
    Points back;
    bool up = gain.front() > 0;
    const auto finish = [&] {
        along.insert(along.end(), back.rbegin(), back.rend());
        svg.polygon(along, up ? "up" : "down");
        along.clear();
        back.clear();
    };
    for (std::size_t i = 0; i < on.size(); ++i) {
        const std::size_t next = (i + 1) % on.size();
        along.push_back(on[i]);
        back.push_back(off[i]);
        if (gain[next] != 0 && (gain[next] > 0) != up) {
            const double zero = gain[i] / (gain[i] - gain[next]);
            const std::pair<double, double> at{on[i].first + zero * (on[next].first - on[i].first),
                                               on[i].second +
                                                   zero * (on[next].second - on[i].second)};
            along.push_back(at);
            finish();
            up = !up;
            along.push_back(at);
        }
    }
    along.push_back(on.front());
    back.push_back(off.front());
    finish();
}

/// The gain of the left side (y > 0) at even stations.
DataTable widening_table(const FoundOutline& outline, const SensedNumber& number) {
    const std::vector<double> widening = outline.widening(number);
    DataTable table{"where width counts for " + number.name + ", left side",
                    {"x, mm", "%, 1 mm over 100 mm"},
                    {}};
    Curve curve;
    std::vector<std::pair<double, double>> points;
    for (std::size_t i = 0; i < outline.at.size(); ++i) {
        if (outline.at[i].second > 0 && outline.outward[i].second > 0) {
            points.emplace_back(outline.at[i].first, widening[i]);
        }
    }
    std::ranges::sort(points);
    for (const auto& [x, gain] : points) {
        curve.x.push_back(x);
        curve.y.push_back(gain);
    }
    for (double x = points.empty() ? 0 : std::ceil(points.front().first / table_step) * table_step;
         !points.empty() && x <= points.back().first; x += table_step) {
        table.rows.push_back({fixed(x, 0), significant(value_at(curve, x), 3)});
    }
    return table;
}

} // namespace

std::string widening_picture(const FoundOutline& outline, const SensedNumber& number,
                             const std::string& id) {
    const auto view = view_of(outline);
    const std::vector<double> gain = outline.widening(number);
    double most = 0;
    std::size_t at = 0;
    for (std::size_t i = 0; i < gain.size(); ++i) {
        at = std::abs(gain[i]) > most ? i : at;
        most = std::max(most, std::abs(gain[i]));
    }
    if (!view || gain.size() < 3 || !(most > 0) || !std::isfinite(most)) {
        return "";
    }
    Points on;
    Points off;
    for (std::size_t i = 0; i < gain.size(); ++i) {
        const double reach = longest_bar * gain[i] / most;
        on.emplace_back(view->x.at(outline.at[i].first), view->y.at(outline.at[i].second));
        off.emplace_back(on.back().first + reach * outline.outward[i].first,
                         on.back().second - reach * outline.outward[i].second);
    }
    Svg svg(picture_width, view->y.from + longest_bar + 24);
    Points line;
    for (const auto& [x, y] : outline.drawn) {
        line.emplace_back(view->x.at(x), view->y.at(y));
    }
    svg.polygon(line, "board");
    draw_between(svg, on, off, gain);
    svg.polygon(line, "outline");
    svg.text(0, 14, "Where to add width: change of " + number.name + " for 1 mm over 100 mm",
             "start", "head");
    svg.text(picture_width - stations_right, 14,
             "outside: it rises, inside: it falls; longest bar " + signed_percent(gain[at]), "end",
             "note");
    draw_stations(svg, view->x, view->y.from + longest_bar, false);
    return svg.markup(id, "Where to add width for " + number.name,
                      "The outline from above, nose to the right. Bars stand on it, outwards where "
                      "more width raises the number, inwards where it lowers it. The longest, " +
                          signed_percent(gain[at]) +
                          " for 1 mm over 100 mm, is at x = " + fixed(outline.at[at].first, 0) +
                          ", y = " + fixed(outline.at[at].second, 0) + " mm.") +
           folded(widening_table(outline, number));
}

} // namespace vrid
