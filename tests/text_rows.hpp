#pragma once

#include <sstream>
#include <string>
#include <vector>

namespace vrid::tests {

/// The line with every run of blanks as one, none at its ends.
inline std::string squeezed(const std::string& line) {
    std::istringstream words(line);
    std::string all;
    for (std::string word; words >> word;) {
        all += (all.empty() ? "" : " ") + word;
    }
    return all;
}

/// All lines of a text, squeezed, without the empty ones and the rules of tables.
inline std::vector<std::string> text_rows(const std::string& text) {
    std::istringstream lines(text);
    std::vector<std::string> all;
    for (std::string line; std::getline(lines, line);) {
        const std::string row = squeezed(line);
        if (row.find_first_not_of('-') != std::string::npos) {
            all.push_back(row);
        }
    }
    return all;
}

/// The first row that starts so; says so when there is none.
inline std::string text_row(const std::string& text, const std::string& start) {
    for (const std::string& row : text_rows(text)) {
        if (row.starts_with(start)) {
            return row;
        }
    }
    return "no row starts with " + start;
}

/// The rows that stand between one that starts so and the next that starts so; for tables.
inline std::vector<std::string> text_rows_between(const std::string& text, const std::string& from,
                                                  const std::string& to) {
    std::vector<std::string> found;
    bool inside = false;
    for (const std::string& row : text_rows(text)) {
        if (inside && row.starts_with(to)) {
            break;
        }
        if (inside) {
            found.push_back(row);
        }
        inside = inside || row.starts_with(from);
    }
    return found;
}

} // namespace vrid::tests
