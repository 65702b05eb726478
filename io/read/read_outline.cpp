#include <charconv>
#include <string_view>

#include "io/read/read_planform.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

constexpr std::size_t fewest_points = 20;
constexpr std::size_t most_points = 5000;

struct Field {
    std::string_view text;
    std::size_t column = 1;
};

std::vector<Field> fields(std::string_view row) {
    std::vector<Field> found;
    std::size_t from = 0;
    while (true) {
        const std::size_t comma = std::min(row.find(',', from), row.size());
        std::size_t begin = from;
        std::size_t end = comma;
        while (begin < end && (row[begin] == ' ' || row[begin] == '\t')) {
            ++begin;
        }
        while (end > begin && (row[end - 1] == ' ' || row[end - 1] == '\t')) {
            --end;
        }
        found.push_back({row.substr(begin, end - begin), begin + 1});
        if (comma == row.size()) {
            return found;
        }
        from = comma + 1;
    }
}

// What stands in a field, fit for a message whatever the bytes.
std::string shown(std::string_view text) {
    std::string plain;
    for (const char c : text.substr(0, 40)) {
        plain += c >= 0x20 && c < 0x7f ? c : '?';
    }
    return "\"" + plain + (text.size() > 40 ? "..." : "") + "\"";
}

std::optional<double> parsed(std::string_view text) {
    if (text.starts_with('+')) {
        text.remove_prefix(1);
    }
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool all = error == std::errc() && end == text.data() + text.size();
    return all ? std::optional(value) : std::nullopt;
}

struct OutlineRows {
    std::string file;
    std::vector<Problem>* problems = nullptr;
    bool with_corners = false;
    DrawnOutline outline;

    void wrong(std::size_t row, std::size_t column, const std::string& message) const {
        problems->push_back(
            {file + ":" + std::to_string(row) + ":" + std::to_string(column), message});
    }
};

void read_header(OutlineRows& rows, std::string_view line) {
    const auto names = fields(line);
    const bool two = names.size() >= 2 && names[0].text == "x_mm" && names[1].text == "y_mm";
    rows.with_corners = two && names.size() == 3 && names[2].text == "corner";
    if (!rows.with_corners && !(two && names.size() == 2)) {
        rows.wrong(1, 1,
                   "found the header " + shown(line) + "; accepted: x_mm,y_mm or x_mm,y_mm,corner");
    }
}

void read_row(OutlineRows& rows, std::size_t row, std::string_view line) {
    const auto cells = fields(line);
    const std::size_t columns = rows.with_corners ? 3 : 2;
    if (cells.size() != columns) {
        rows.wrong(row, 1,
                   "found " + std::to_string(cells.size()) + " columns; accepted: " +
                       std::to_string(columns) + " as in the header, with commas between");
        return;
    }
    std::array<double, 2> point{};
    bool good = true;
    for (std::size_t i = 0; i < 2; ++i) {
        const Accepted& range = accepted(i == 0 ? "outline.x_mm" : "outline.y_mm");
        const auto value = parsed(cells[i].text);
        if (!value || !is_accepted(range, *value)) {
            rows.wrong(row, cells[i].column,
                       std::string(i == 0 ? "x_mm" : "y_mm") + ": found " + shown(cells[i].text) +
                           "; accepted: " + accepted_text(range));
            good = false;
            continue;
        }
        point[i] = to_si(range.key, *value);
    }
    const std::string_view corner = rows.with_corners ? cells[2].text : "0";
    if (corner != "0" && corner != "1") {
        rows.wrong(row, cells[2].column, "corner: found " + shown(corner) + "; accepted: 0 or 1");
        good = false;
    }
    const Eigen::Vector2d at(point[0], point[1]);
    if (good && !rows.outline.points.empty() && at == rows.outline.points.back()) {
        rows.wrong(row, 1, "the same point twice in a row");
    }
    if (good) {
        rows.outline.points.push_back(at);
        rows.outline.corner.push_back(corner == "1");
    }
}

void read_rows(OutlineRows& rows, std::string_view text) {
    std::size_t row = 0;
    while (!text.empty() && rows.problems->size() < 20) { // nobody reads further
        ++row;
        const std::size_t end = std::min(text.find('\n'), text.size());
        std::string_view line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        if (line.ends_with('\r')) {
            line.remove_suffix(1);
        }
        if (row == 1) {
            read_header(rows, line);
        } else if (!line.empty()) {
            read_row(rows, row, line);
        }
    }
}

} // namespace

std::optional<DrawnOutline> read_outline(const std::string& text, const std::string& file,
                                         std::vector<Problem>& problems) {
    std::vector<Problem> found;
    OutlineRows rows{file, &found, false, {}};
    read_rows(rows, text.starts_with("\xef\xbb\xbf") ? std::string_view(text).substr(3)
                                                     : std::string_view(text));
    auto& points = rows.outline.points;
    if (points.size() > 1 && points.front() == points.back()) { // the loop closed by hand
        points.pop_back();
        rows.outline.corner.pop_back();
    }
    if (found.empty() && (points.size() < fewest_points || points.size() > most_points)) {
        rows.wrong(1, 1,
                   "found " + std::to_string(points.size()) + " points; accepted: " +
                       std::to_string(fewest_points) + " to " + std::to_string(most_points));
    }
    problems.insert(problems.end(), found.begin(), found.end());
    return found.empty() ? std::optional(std::move(rows.outline)) : std::nullopt;
}

} // namespace vrid
