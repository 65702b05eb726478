#include "io/toml/csv_text.hpp"

#include <algorithm>
#include <charconv>

namespace vrid {

namespace {

bool is_blank(char c) {
    return c == ' ' || c == '\t';
}

// Characters of a UTF-8 text: bytes that do not go on with one.
int characters(std::string_view text) {
    return static_cast<int>(std::ranges::count_if(
        text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

// The first line up to its end, which is taken from the text with it.
std::string_view next_line(std::string_view& text) {
    const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
    const std::string_view line = text.substr(0, end);
    const bool both = text.substr(end).starts_with("\r\n");
    text.remove_prefix(std::min(end + (both ? 2 : 1), text.size()));
    return line;
}

char separator_of(std::string_view line) {
    bool quoted = false;
    std::string outside;
    for (const char c : line) {
        quoted = quoted != (c == '"');
        if (!quoted) {
            outside += c;
        }
    }
    for (const char separator : {'\t', ';'}) {
        if (outside.find(separator) != std::string::npos) {
            return separator;
        }
    }
    return ',';
}

// Reads one line's cells.
class Cells {
  public:
    Cells(CsvText& csv, std::string_view line, int number)
        : csv_(csv), line_(line), row_{number, {}} {}

    CsvRow read() && {
        do {
            skip_blanks();
            const CsvCell cell = at_ < line_.size() && line_[at_] == '"' ? quoted() : plain();
            row_.cells.push_back(cell);
        } while (at_++ < line_.size()); // over the separator
        return std::move(row_);
    }

  private:
    [[nodiscard]] int column() const { return characters(line_.substr(0, at_)) + 1; }
    void skip_blanks() {
        while (at_ < line_.size() && is_blank(line_[at_]) && line_[at_] != csv_.separator) {
            ++at_;
        }
    }

    CsvCell plain() {
        CsvCell cell{"", column()};
        const std::size_t end = std::min(line_.find(csv_.separator, at_), line_.size());
        cell.text = line_.substr(at_, end - at_);
        while (!cell.text.empty() && is_blank(cell.text.back())) {
            cell.text.pop_back();
        }
        at_ = end;
        return cell;
    }

    CsvCell quoted() {
        CsvCell cell{"", column()};
        ++at_;
        for (;; ++at_) {
            const std::size_t end = std::min(line_.find('"', at_), line_.size());
            cell.text += line_.substr(at_, end - at_);
            at_ = end + 1;
            if (end == line_.size()) {
                note_problem(csv_, row_.line, cell.column, "the quote does not end on its line");
                at_ = end;
                return cell;
            }
            if (at_ == line_.size() || line_[at_] != '"') {
                break;
            }
            cell.text += '"'; // a doubled quote is one
        }
        skip_blanks();
        if (at_ < line_.size() && line_[at_] != csv_.separator) {
            note_problem(csv_, row_.line, column(), "text behind a cell in quotes");
            at_ = std::min(line_.find(csv_.separator, at_), line_.size());
        }
        return cell;
    }

    CsvText& csv_;
    std::string_view line_;
    std::size_t at_ = 0;
    CsvRow row_;
};

} // namespace

CsvText csv_text(std::string_view text, const std::string& file) {
    CsvText csv{file, ',', {}};
    if (text.starts_with("\xef\xbb\xbf")) {
        text.remove_prefix(3);
    }
    for (int line = 1; !text.empty(); ++line) {
        const std::string_view content = next_line(text);
        if (std::ranges::all_of(content, is_blank)) {
            continue;
        }
        if (csv.rows.empty()) {
            csv.separator = separator_of(content);
        }
        csv.rows.push_back(Cells(csv, content, line).read());
    }
    return csv;
}

void note_problem(CsvText& csv, int line, int column, const std::string& message) {
    csv.problems.push_back(
        {csv.file + ":" + std::to_string(line) + ":" + std::to_string(column), message});
}

std::optional<double> csv_number(CsvText& csv, const CsvRow& row, const CsvCell& cell) {
    std::string digits = cell.text.starts_with('+') ? cell.text.substr(1) : cell.text;
    if (digits.starts_with('-') && cell.text.starts_with('+')) {
        return std::nullopt;
    }
    const std::size_t mark = digits.find_first_of(".,");
    const char written = mark == std::string::npos ? '\0' : digits[mark];
    if (written == ',') {
        if (csv.separator == ',') {
            return std::nullopt;
        }
        digits[mark] = '.';
    }
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || end != digits.data() + digits.size()) {
        return std::nullopt;
    }
    if (written != '\0' && csv.decimal_mark != '\0' && written != csv.decimal_mark) {
        note_problem(csv, row.line, cell.column,
                     "found " + shown_cell(cell.text) +
                         " in a file whose numbers are written with "
                         "a decimal " +
                         (written == ',' ? "point" : "comma") +
                         " elsewhere; accepted: one of the two");
    } else if (written != '\0') {
        csv.decimal_mark = written;
    }
    return value;
}

int decimals_of(std::string_view number) {
    const std::size_t exponent = std::min(number.find_first_of("eE"), number.size());
    const std::size_t mark = std::min(number.find_first_of(".,"), exponent);
    int power = 0;
    std::string_view after = number.substr(std::min(exponent + 1, number.size()));
    if (after.starts_with('+')) {
        after.remove_prefix(1);
    }
    std::from_chars(after.data(), after.data() + after.size(), power);
    const auto digits = static_cast<int>(mark < exponent ? exponent - mark - 1 : 0);
    return digits - power;
}

std::string shown_cell(std::string_view text) {
    constexpr std::size_t longest = 40;
    std::string plain;
    for (const char c : text.substr(0, longest)) {
        plain += c >= 0x20 && c < 0x7f ? c : '?';
    }
    return "\"" + plain + (text.size() > longest ? "..." : "") + "\"";
}

std::vector<Problem> first_problems(const CsvText& csv) {
    constexpr std::size_t most = 20; // nobody reads further
    std::vector<Problem> first = csv.problems;
    if (first.size() > most) {
        const std::size_t more = first.size() - most;
        first.resize(most);
        first.push_back({csv.file, "and " + std::to_string(more) + " more"});
    }
    return first;
}

} // namespace vrid
