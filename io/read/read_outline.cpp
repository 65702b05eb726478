#include <algorithm>
#include <cmath>

#include "io/read/read_tables.hpp"
#include "io/toml/accepted.hpp"
#include "io/toml/csv_text.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr std::size_t fewest_points = 20;
constexpr std::size_t fewest_of_half = 11; // 20 with their mirror image, ends once
constexpr std::size_t most_points = 5000;

struct OutlineRows {
    CsvText csv;
    bool with_corners = false;
    int decimals = 0; // most of any coordinate
    DrawnOutline outline{};
};

void read_header(OutlineRows& rows) {
    if (rows.csv.rows.empty()) {
        return; // and no points: told of those
    }
    const CsvRow header = rows.csv.rows.front();
    const std::string found = joined(header.cells, ",", &CsvCell::text);
    rows.with_corners = found == "x_mm,y_mm,corner";
    if (!rows.with_corners && found != "x_mm,y_mm") {
        note_problem(rows.csv, header.line, 1,
                     "found the header " + shown_cell(found) +
                         "; accepted: x_mm,y_mm or x_mm,y_mm,corner");
    }
}

std::optional<double> read_coordinate(OutlineRows& rows, const CsvRow& row, std::size_t column) {
    const CsvCell& cell = row.cells[column];
    const Accepted& range = accepted(column == 0 ? "outline.x_mm" : "outline.y_mm");
    const auto value = csv_number(rows.csv, row, cell);
    if (!value || !is_accepted(range, *value)) {
        note_problem(rows.csv, row.line, cell.column,
                     std::string(column == 0 ? "x_mm" : "y_mm") + ": found " +
                         shown_cell(cell.text) + "; accepted: " + accepted_text(range));
        return std::nullopt;
    }
    rows.decimals = std::max(rows.decimals, decimals_of(cell.text));
    return to_si(range.key, *value);
}

void read_row(OutlineRows& rows, const CsvRow& row) {
    const std::size_t columns = rows.with_corners ? 3 : 2;
    if (row.cells.size() != columns) {
        note_problem(rows.csv, row.line, 1,
                     "found " + std::to_string(row.cells.size()) +
                         " columns; accepted: " + std::to_string(columns) + " as in the header" +
                         (row.cells.size() == 2 * columns
                              ? " (decimal commas need semicolons or tabs between columns)"
                              : ""));
        return;
    }
    const auto x = read_coordinate(rows, row, 0);
    const auto y = read_coordinate(rows, row, 1);
    const std::string corner = rows.with_corners ? row.cells[2].text : "0";
    if (corner != "0" && corner != "1") {
        note_problem(rows.csv, row.line, row.cells[2].column,
                     "corner: found " + shown_cell(corner) + "; accepted: 0 or 1");
        return;
    }
    if (!x || !y) {
        return;
    }
    auto& [points, corners] = rows.outline;
    const Eigen::Vector2d at(*x, *y);
    if (!points.empty() && at == points.back()) { // a fine drawing, rounded
        corners.back() = corners.back() || corner == "1";
        return;
    }
    points.push_back(at);
    corners.push_back(corner == "1");
}

} // namespace

std::optional<OutlineFile> read_outline(const std::string& text, const std::string& file,
                                        std::vector<Problem>& problems, bool half) {
    OutlineRows rows{csv_text(text, file)};
    read_header(rows);
    const std::vector<CsvRow> all = rows.csv.rows;
    for (std::size_t i = 1; i < all.size(); ++i) {
        read_row(rows, all[i]);
    }
    auto& [points, corners] = rows.outline;
    if (points.size() > 1 && points.front() == points.back()) { // the loop closed by hand
        corners.front() = corners.front() || corners.back();
        points.pop_back();
        corners.pop_back();
    }
    const std::size_t fewest = half ? fewest_of_half : fewest_points;
    if (rows.csv.problems.empty() && (points.size() < fewest || points.size() > most_points)) {
        note_problem(rows.csv, 1, 1,
                     "found " + std::to_string(points.size()) + " points; accepted: " +
                         std::to_string(fewest) + " to " + std::to_string(most_points));
    }
    if (!rows.csv.problems.empty()) {
        const std::vector<Problem> first = first_problems(rows.csv);
        problems.insert(problems.end(), first.begin(), first.end());
        return std::nullopt;
    }
    const double last_digit = to_si("outline.x_mm", std::pow(10.0, -rows.decimals));
    return OutlineFile{std::move(rows.outline), last_digit / 2};
}

} // namespace vrid
