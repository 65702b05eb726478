#include "io/batch/number_table.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <sstream>

namespace vrid {

StationTable number_table(const std::string& text) {
    StationTable table;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::size_t column = 0;
        const bool title = table.columns.empty() && table.values.empty();
        for (std::size_t at = 0; at <= line.size(); ++column) {
            const std::size_t end = std::min(line.find(',', at), line.size());
            const std::string cell = line.substr(at, end - at);
            at = end + 1;
            if (title) {
                table.columns.push_back(cell);
                continue;
            }
            double value = std::nan("");
            std::from_chars(cell.data(), cell.data() + cell.size(), value);
            if (column < table.values.size()) {
                table.values[column].push_back(value);
            }
        }
        if (title) {
            table.values.resize(table.columns.size());
        }
    }
    return table;
}

} // namespace vrid
