#include "io/batch/folder_results.hpp"

#include <charconv>
#include <cmath>

#include "io/batch/file_bytes.hpp"
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

const BoardEntry& FolderResults::board() const {
    return result ? result->board : edge ? edge->board : strength->board.value;
}

std::string FolderResults::program() const {
    return result ? result->program : edge ? edge->program : strength->program;
}

FolderResults read_folder(const std::filesystem::path& folder) {
    FolderResults found;
    const auto read = [&]<class Whole>(const char* name, const char* mark,
                                       std::optional<Whole>& into) {
        std::error_code error;
        if (const auto path = folder / name; std::filesystem::exists(path, error)) {
            into = read_whole<Whole>(file_bytes(path), path.string(), mark);
        }
    };
    read("result.json", "cases", found.result);
    read("strength.json", "strength", found.strength);
    read("edge.json", "conditions", found.edge);
    return found;
}

FolderResults compared_of(const FoundEdge& edge) {
    FolderResults found;
    static_cast<BoardOnEdge&>(found.edge.emplace()) = *edge.compared;
    found.compared = true;
    return found;
}

} // namespace vrid
