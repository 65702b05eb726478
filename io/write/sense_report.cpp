#include "io/write/sense_report.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "io/write/caution.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/design_path.hpp"
#include "io/write/drawing.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/quad_sides.hpp"
#include "solver/design/design_board.hpp"
#include "solver/element/quadrature.hpp"

namespace vrid {

namespace {

constexpr double least_percent = 1e-3; // what a table shows
constexpr double least_change = 1e-9;  // of a position, in its bench unit: below it is rounding
constexpr double sanded = 1e-4;        // of core, in the picture [m]
constexpr double patch = 1e-2;         // over this area [m2]

std::string unit_or_one(const DesignValue& value) {
    const std::string name = file_unit_name(value.id);
    return name.empty() ? "1" : name;
}

// x of a core station [mm].
std::optional<double> station_of(const Board& board, const DesignValue& value) {
    return value.kind().property == DesignProperty::core_thickness
               ? std::optional(from_si(value.id, board.core->thickness.x[value.id.index]))
               : std::nullopt;
}

std::string named(const Board& board, const DesignValue& value) {
    const auto x = station_of(board, value);
    return path_of(value.id) + (x ? " at x = " + csv_cell(*x) + " mm" : "");
}

std::string signed_text(double value, int digits) {
    return (value > 0 ? "+" : "") + significant(value, digits);
}

Table table_of(const Sense& sense, const std::vector<SenseEntry>& entries, std::size_t rows) {
    const BoardNumber& number = sense.numbers.numbers[entries.front().number];
    const std::string unit = bench_unit(number.quantity.unit).name;
    Table table{{left("design value"), decimal("now"), decimal("step"), left(""),
                 decimal("change", "%"), decimal("change", unit)}};
    for (const SenseEntry& entry : entries) {
        const double change = entry.slope * entry.step;
        const bool small = std::isfinite(entry.percent) ? std::abs(entry.percent) < least_percent
                                                        : std::abs(change) <= least_change;
        if (table.rows.size() == rows || small) {
            break;
        }
        const DesignValue& value = sense.values[entry.value];
        table.rows.push_back({named(sense.board, value),
                              significant(from_si(value.id, value.value), 4),
                              significant(entry.step, 3), file_unit_name(value.id),
                              std::isfinite(entry.percent) ? signed_text(entry.percent, 3) : "",
                              signed_text(change, 3)});
    }
    return table;
}

// Values at Gauss points of every quad, at evenly spaced ones: n x n a quad.
Eigen::RowVectorXd even_values(const Eigen::VectorXd& at_points, int degree) {
    const int n = degree + 1;
    const Eigen::MatrixXd L =
        lagrange(gauss(n).point, Eigen::VectorXd::LinSpaced(n, -1, 1)); // even x Gauss
    const Eigen::MatrixXd to_even = tensor(L, L);
    Eigen::RowVectorXd values(at_points.size());
    for (Eigen::Index first = 0; first < at_points.size(); first += to_even.rows()) {
        values.segment(first, to_even.rows()) = to_even * at_points.segment(first, to_even.rows());
    }
    return values;
}

std::string density_vtu(const Sense& sense, const CoreDensity& field) {
    QuadGrid grid;
    grid.n = field.degree + 1;
    const Eigen::MatrixXd to_points =
        geometry_to_points(*field.mesh, Eigen::VectorXd::LinSpaced(grid.n, -1, 1));
    const Eigen::Index each = Eigen::Index(grid.n) * grid.n;
    grid.points =
        Eigen::Matrix3Xd::Zero(3, each * static_cast<Eigen::Index>(field.mesh->quads.size()));
    for (int quad = 0; quad < static_cast<int>(field.mesh->quads.size()); ++quad) {
        grid.points.block(0, each * quad, 2, each) = quad_points(*field.mesh, quad, to_points);
    }
    for (std::size_t k = 0; k < field.numbers.size(); ++k) {
        const BoardNumber& number = sense.numbers.numbers[field.numbers[k]];
        const bool position = is_position(number.request);
        const double scale = position ? sanded * patch * bench_unit(number.quantity.unit).per_si
                                      : 100 * sanded * patch / number.quantity.value;
        const std::string unit =
            position ? bench_unit(number.quantity.unit).name : std::string("%");
        grid.fields.push_back(
            {number_name(number.request) + " [" + unit + " per 0.1 mm over 1 dm2]",
             {},
             scale * even_values(field.density.col(static_cast<Eigen::Index>(k)), field.degree)});
    }
    if (field.mesh == sense.numbers.outline.mesh) {
        add_outline_gain(sense, grid);
    }
    grid.notes = {{"board", {sense.board.name}},
                  {"shows", {"change of each number when the core grows by 0.1 mm over 1 dm2"}}};
    return vtu_text(grid, false);
}

// Lines that part: one sentence each, where the two sides differ by more than a percent.
std::string kinks_text(const Sense& sense, const std::vector<SenseEntry>& entries) {
    constexpr double telling = 0.01;
    std::string all;
    for (const SenseEntry& entry : entries) {
        if (!entry.kink || std::abs(entry.percent) < least_percent) {
            continue;
        }
        const auto [below, above] = *entry.kink;
        if (std::abs(above - below) > telling * std::abs(entry.slope)) {
            const DesignValue& value = sense.values[entry.value];
            const std::string unit = file_unit_name(value.id);
            all += "  " + path_of(value.id) + ": " + signed_text(below, 3) + " a " + unit +
                   " downwards, " + signed_text(above, 3) +
                   " upwards: it moves a line off one at which the section jumps\n";
        }
    }
    return all;
}

constexpr int gain_digits = 8;
constexpr double added = 1e-3; // of width, in the picture [m]
constexpr double along = 0.1;  // of the outline [m]

std::string why_omitted(const NumberId& request) {
    switch (request.kind) {
    case NumberId::Kind::edge:
    case NumberId::Kind::bent:
    case NumberId::Kind::shape:
        return "derivatives by the places of the nodes are those of bench cases and frequencies";
    default:
        return "needs no solve: derivatives by widths and lengths tell it";
    }
}

} // namespace

std::vector<SenseEntry> entries_of(const Sense& sense, std::size_t number) {
    const BoardNumber& of = sense.numbers.numbers[number];
    const double per_si = bench_unit(of.quantity.unit).per_si;
    std::vector<SenseEntry> entries;
    for (std::size_t i = 0; i < sense.values.size(); ++i) {
        if (!sense.shown[i]) {
            continue;
        }
        const DesignValue& value = sense.values[i];
        const double slope = of.slope(static_cast<Eigen::Index>(i));
        const double step = workshop_step(value);
        const bool share = !is_position(of.request) && of.quantity.value != 0;
        entries.push_back({number,
                           i,
                           slope * per_si * to_si(value.id, 1),
                           from_si(value.id, step),
                           share ? 100 * slope * step / of.quantity.value
                                 : std::numeric_limits<double>::quiet_NaN(),
                           {}});
        for (const Kink& kink : sense.numbers.kinks) {
            if (kink.number == number && kink.value == value.id) {
                const double unit = per_si * to_si(value.id, 1);
                entries.back().kink = {kink.below * unit, kink.above * unit};
            }
        }
    }
    std::ranges::stable_sort(entries, [](const SenseEntry& a, const SenseEntry& b) {
        return std::abs(a.slope * a.step) > std::abs(b.slope * b.step);
    });
    return entries;
}

std::string sense_text(const Sense& sense, std::size_t rows) {
    std::string all =
        sense.board.name + ": what a workshop step changes\n" + condition_line(sense.condition);
    for (std::size_t k = 0; k < sense.numbers.numbers.size(); ++k) {
        const BoardNumber& number = sense.numbers.numbers[k];
        const std::vector<SenseEntry> entries = entries_of(sense, k);
        all += "\n" + number_name(number.request) + " = " + text(to_bench(number.quantity)) + "\n";
        if (entries.empty()) {
            continue;
        }
        const Table table = table_of(sense, entries, rows);
        all += table.rows.empty() ? "  none of the chosen values changes it\n" : text(table);
        all += kinks_text(sense, entries);
        if (table.rows.size() == rows && entries.size() > rows) {
            all += "  (" + std::to_string(entries.size() - rows) +
                   " more, each smaller; --rows N shows them)\n";
        }
    }
    return all;
}

std::string sense_json(const Sense& sense) {
    SenseFindings all;
    all.program = program_name();
    all.board = board_file_entry(sense.board, sense.set);
    all.edge = {sense.condition};
    all.warnings = sense.numbers.warnings;
    for (std::size_t k = 0; k < sense.numbers.numbers.size(); ++k) {
        const BoardNumber& number = sense.numbers.numbers[k];
        const BenchQuantity quantity = to_bench(number.quantity);
        all.numbers.push_back({number_name(number.request), {quantity}, {}});
        for (const SenseEntry& entry : entries_of(sense, k)) {
            const DesignValue& value = sense.values[entry.value];
            StepChange one{all.numbers.back().name, path_of(value.id)};
            one.x = station_of(sense.board, value);
            one.value = entry.slope;
            if (entry.kink) {
                one.below = (*entry.kink)[0];
                one.above = (*entry.kink)[1];
                one.kink = true;
            }
            one.unit = (quantity.unit.empty() ? "1" : quantity.unit) + " per " + unit_or_one(value);
            if (std::isfinite(entry.percent)) {
                one.percent_per_step = entry.percent;
            }
            one.step = entry.step;
            one.step_unit = file_unit_name(value.id);
            all.numbers.back().steps.push_back(one);
        }
    }
    if (sense.numbers.outline.any()) {
        all.outline = found_outline(sense);
    }
    return json_text(json_of(all));
}

void write_sense(const Sense& sense, const std::string& folder) {
    StagedFiles files(folder);
    for (const CoreDensity& field : sense.numbers.densities) {
        const NumberId& first = sense.numbers.numbers[field.numbers.front()].request;
        files.add(first.kind == NumberId::Kind::edge ? "sense-edge.vtu" : "sense.vtu",
                  density_vtu(sense, field));
    }
    files.add("sense.json", sense_json(sense));
    files.publish_as("sense");
}

FoundOutline found_outline(const Sense& sense) {
    const OutlineDensity& outline = sense.numbers.outline;
    const double per_area = added * added; // mm2 in m2
    FoundOutline all;
    all.drawn = drawn_outline(sense.board.planform);
    for (Index i = 0; i < outline.length.size(); ++i) {
        all.at.emplace_back(in_mm(outline.at(0, i), gain_digits),
                            in_mm(outline.at(1, i), gain_digits));
        all.outward.emplace_back(round_significant(outline.outward(0, i), gain_digits),
                                 round_significant(outline.outward(1, i), gain_digits));
        all.length.value.push_back(in_mm(outline.length(i), gain_digits));
    }
    for (std::size_t k = 0; k < outline.numbers.size(); ++k) {
        const BoardNumber& number = sense.numbers.numbers[outline.numbers[k]];
        const BenchUnit unit = bench_unit(number.quantity.unit);
        const Eigen::VectorXd gain =
            outline.density.col(static_cast<Index>(k)) * unit.per_si * per_area;
        all.gains.push_back(
            {number_name(number.request), unit.name + " per mm2", {gain.begin(), gain.end()}});
    }
    for (std::size_t k = 0; k < sense.numbers.numbers.size(); ++k) {
        if (!contains(outline.numbers, k)) {
            const NumberId& request = sense.numbers.numbers[k].request;
            all.omitted.emplace_back(number_name(request), why_omitted(request));
        }
    }
    return all;
}

void add_outline_gain(const Sense& sense, QuadGrid& grid) {
    const OutlineDensity& outline = sense.numbers.outline;
    const Index each = Index(grid.n) * grid.n;
    const std::vector<OutlineEdge>& edges = outline.mesh->outline; // in the order of the vertices
    for (std::size_t k = 0; k < outline.numbers.size(); ++k) {
        const BoardNumber& number = sense.numbers.numbers[outline.numbers[k]];
        const Eigen::VectorXd percent = 100 * added * along / number.quantity.value *
                                        outline.density.col(static_cast<Index>(k));
        Eigen::RowVectorXd values = Eigen::RowVectorXd::Constant(
            grid.points.cols(), std::numeric_limits<double>::quiet_NaN());
        for (std::size_t i = 0; i < edges.size(); ++i) {
            const double from = percent(static_cast<Index>(i));
            const double to = percent(static_cast<Index>((i + 1) % edges.size()));
            const std::vector<Index> side = side_points(edges[i].side, grid.n - 1);
            for (std::size_t s = 0; s < side.size(); ++s) {
                const double share = static_cast<double>(s) / (grid.n - 1);
                values(each * edges[i].quad + side[s]) = (1 - share) * from + share * to;
            }
        }
        grid.fields.push_back(
            {number_name(number.request) + " [% per mm of width over 100 mm]", {}, values});
    }
}

} // namespace vrid
