#include "io/batch/number_table.hpp"

#include <charconv>
#include <cmath>

#include "io/write/csv_cell.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

StationTable number_table(const std::string& text, const std::string& file) {
    StationTable table;
    std::size_t at = 0;
    std::size_t line = 1;
    if (!text.empty()) {
        table.columns = csv_row(text, at);
        table.values.resize(table.columns.size());
    }
    while (at < text.size()) {
        const std::vector<std::string> cells = csv_row(text, at);
        ++line;
        if (cells.size() != table.columns.size()) {
            throw InputError(file + ":" + std::to_string(line),
                             "is damaged: found " + std::to_string(cells.size()) +
                                 " cells; accepted: " + std::to_string(table.columns.size()) +
                                 " as in the title row");
        }
        for (std::size_t i = 0; i < cells.size(); ++i) {
            double value = std::nan("");
            std::from_chars(cells[i].data(), cells[i].data() + cells[i].size(), value);
            table.values[i].push_back(value);
        }
    }
    return table;
}

} // namespace vrid
