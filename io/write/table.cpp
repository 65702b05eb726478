#include "io/write/table.hpp"

#include <algorithm>
#include <cctype>

namespace vrid {
namespace {

constexpr const char* gap = "  ";

/// Characters on the screen: UTF-8 continuation bytes do not count.
std::size_t width_of(const std::string& text) {
    return static_cast<std::size_t>(std::ranges::count_if(
        text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string blanks(std::size_t count) {
    return std::string{}.append(count, ' ');
}

/// Characters from the decimal point on; 0 if there is none.
std::size_t tail_of(const std::string& cell) {
    const bool number = !cell.empty() && std::ranges::any_of(cell, [](unsigned char c) {
        return std::isdigit(c) != 0;
    });
    const std::size_t point = number ? cell.find('.') : std::string::npos;
    return point == std::string::npos ? 0 : cell.size() - point;
}

std::string padded(const std::string& cell, std::size_t width, Align align) {
    const std::size_t used = width_of(cell);
    const std::string fill = blanks(width > used ? width - used : 0);
    return align == Align::left ? cell + fill : fill + cell;
}

/// Cells of column k, numbers filled after the point so that points line up when set right.
std::vector<std::string> cells_of(const Table& table, std::size_t k) {
    std::vector<std::string> cells;
    std::size_t tail = 0;
    for (const auto& row : table.rows) {
        cells.push_back(k < row.size() ? row[k] : "");
        tail = std::max(tail, tail_of(cells.back()));
    }
    if (table.columns[k].align == Align::decimal) {
        for (std::string& cell : cells) {
            const bool number = cell.find_first_of("0123456789") != std::string::npos;
            cell += number ? blanks(tail - tail_of(cell)) : "";
        }
    }
    return cells;
}

void trim_end(std::string& line) {
    line.erase(line.find_last_not_of(' ') + 1);
}

} // namespace

std::string text(const Table& table) {
    const bool units = std::ranges::any_of(
        table.columns, [](const Column& column) { return !column.unit.empty(); });
    std::vector<std::string> lines(table.rows.size() + 2);
    std::size_t total = 0;
    for (std::size_t k = 0; k < table.columns.size(); ++k) {
        const Column& column = table.columns[k];
        const std::vector<std::string> cells = cells_of(table, k);
        const std::string unit = column.unit.empty() ? "" : "[" + column.unit + "]";
        std::size_t width = std::max(width_of(column.title), width_of(unit));
        for (const std::string& cell : cells) {
            width = std::max(width, width_of(cell));
        }
        if (width == 0) {
            continue;
        }
        total += width + 2;
        lines[0] += gap + padded(column.title, width, column.align);
        lines[1] += gap + padded(unit, width, column.align);
        for (std::size_t i = 0; i < cells.size(); ++i) {
            lines[i + 2] += gap + padded(cells[i], width, column.align);
        }
    }
    std::string all;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        trim_end(lines[i]);
        if (i != 1 || units) {
            all += lines[i] + "\n";
        }
        if (i == 1 && total > 2) {
            all += gap + std::string(total - 2, '-') + "\n";
        }
    }
    return all;
}

std::string wrapped(const std::string& text, std::size_t width, std::size_t indent) {
    std::string all;
    std::string line;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string word = text.substr(at, end - at);
        if (!line.empty() && indent + width_of(line) + 1 + width_of(word) > width) {
            all += blanks(indent) + line + "\n";
            line.clear();
        }
        line += (line.empty() ? "" : " ") + word;
        at = end + 1;
    }
    return line.empty() ? all : all + blanks(indent) + line + "\n";
}

} // namespace vrid
