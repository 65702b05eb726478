#include "io/write/comparison.hpp"
#include "io/write/caution.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/board_file_entry.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/table.hpp"
#include "solver/response/error_bar.hpp"

namespace vrid {
namespace {

constexpr double finest_percent = 0.02;     // two decimals: no rig reads more
constexpr std::size_t boards_per_table = 2; // each with its bar: two fit eighty columns

ComparedNumber& row_named(std::vector<ComparedNumber>& rows, const std::string& name,
                          std::size_t boards) {
    const auto found = std::ranges::find(rows, name, &ComparedNumber::name);
    if (found != rows.end()) {
        return *found;
    }
    rows.push_back({name, std::vector<ComparedValue>(boards)});
    return rows.back();
}

void hold_against_first(std::vector<ComparedValue>& values, bool position) {
    const auto& first = values.front().quantity;
    for (std::size_t i = 1; i < values.size(); ++i) {
        const auto& mine = values[i].quantity;
        if (!first || !mine || (first->value == 0 && !position)) {
            continue;
        }
        const double difference = mine->value - first->value;
        const double bars = mine->error + first->error;
        if (position) {
            values[i].difference = difference;
            values[i].resolved = std::abs(difference) > bars;
            continue;
        }
        values[i].percent = 100 * difference / std::abs(first->value);
        values[i].percent_error = 100 * bars / std::abs(first->value);
        values[i].resolved = std::abs(difference) > bars;
    }
}

std::string letter(std::size_t board) {
    return board < 26 ? std::string(1, static_cast<char>('A' + board)) : std::to_string(board + 1);
}

std::string change_text(const ComparedValue& value) {
    if (value.difference) {
        const std::string by = fixed(*value.difference, 2) + " " + value.quantity->unit;
        return value.resolved ? (*value.difference > 0 ? "+" : "") + by : "not resolved";
    }
    if (!value.percent) {
        return "";
    }
    if (*value.percent == 0) {
        return "same";
    }
    if (!value.resolved) {
        return value.percent_error < no_bar ? "not resolved" : "no bar";
    }
    const std::string number =
        rounded(*value.percent, std::max(value.percent_error, finest_percent)).value;
    return (*value.percent > 0 ? "+" : "") + number + " %";
}

/// The first board, and beside it those numbered from..to - 1.
std::string table_text(const Comparison& comparison, std::size_t from, std::size_t to) {
    std::vector<std::size_t> boards{0};
    Table table{{left("")}};
    for (std::size_t b = from; b < to; ++b) {
        boards.push_back(b);
    }
    for (const std::size_t b : boards) {
        table.columns.push_back(decimal(letter(b)));
        table.columns.push_back(left(""));
        table.columns.push_back(decimal(b == 0 ? "" : letter(b) + " - A"));
    }
    table.columns.push_back(left("unit"));
    for (const ComparedNumber& number : comparison.numbers) {
        std::vector<std::string> row{number.name};
        std::string unit;
        for (const std::size_t b : boards) {
            const ComparedValue& value = number.by_board[b];
            const auto shown = value.quantity
                                   ? rounded(value.quantity->value, value.quantity->error)
                                   : RoundedNumber{"-", ""};
            unit = value.quantity ? value.quantity->unit : unit;
            row.push_back(shown.value);
            row.push_back(value.quantity ? bar_cell(*value.quantity) : "");
            row.push_back(change_text(value));
        }
        row.push_back(unit);
        table.rows.push_back(row);
    }
    return text(table);
}

} // namespace

Comparison compare_boards(const std::vector<SolvedBoard>& boards) {
    Comparison comparison;
    for (std::size_t b = 0; b < boards.size(); ++b) {
        comparison.boards.push_back(boards[b].board.name);
        comparison.files.push_back(boards[b].board.file);
        comparison.hashes.push_back(boards[b].board.hash);
        comparison.set.push_back(boards[b].set);
        for (const NamedQuantity& number : numbers_of(boards[b])) {
            row_named(comparison.numbers, number.name, boards.size()).by_board[b].quantity =
                to_bench(number.quantity);
        }
        comparison.skipped.push_back(skipped_of(boards[b].study));
    }
    for (ComparedNumber& number : comparison.numbers) {
        hold_against_first(number.by_board, names_a_shape(number.name));
    }
    return comparison;
}

std::string text(const Comparison& comparison) {
    std::string all;
    for (std::size_t b = 0; b < comparison.boards.size(); ++b) {
        const std::string& name = comparison.boards[b];
        const auto of_name = std::count(comparison.boards.begin(), comparison.boards.end(), name);
        all += "  " + letter(b) + "  " + name +
               (of_name > 1 ? " (" + comparison.files[b] + ")" : "") + "\n";
    }
    const std::size_t count = comparison.boards.size();
    for (std::size_t from = 1; from < count; from += boards_per_table - 1) {
        all += "\n" + table_text(comparison, from, std::min(count, from + boards_per_table - 1));
    }
    all += "\n  not resolved: the difference is smaller than the sum of the two error bars\n";
    for (std::size_t b = 0; b < count; ++b) {
        for (const auto& [name, why] : comparison.skipped[b]) {
            all.append("  ").append(letter(b)).append(" skipped ").append(name);
            all.append(": ").append(why).append("\n");
        }
    }
    return all;
}

std::string json(const Comparison& comparison) {
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["boards"] = Json::array();
    all["skipped"] = Json::array();
    for (std::size_t b = 0; b < comparison.boards.size(); ++b) {
        all["boards"].push_back(
            written(BoardEntry{comparison.boards[b], comparison.hashes[b], comparison.set[b]}));
        Json skipped = Json::object();
        for (const auto& [name, why] : comparison.skipped[b]) {
            skipped[name] = why;
        }
        all["skipped"].push_back(skipped);
    }
    all["numbers"] = Json::object();
    for (const ComparedNumber& number : comparison.numbers) {
        Json values = Json::array();
        for (const ComparedValue& value : number.by_board) {
            Json one = value.quantity ? json_of(*value.quantity) : Json();
            if (value.difference) {
                one["difference"] = round_significant(*value.difference, 6);
                one["resolved"] = value.resolved;
            }
            if (value.percent) {
                one["percent"] = round_significant(*value.percent, 6);
                one["percent_error"] = round_significant(value.percent_error, 3);
                one["resolved"] = value.resolved;
            }
            values.push_back(one);
        }
        all["numbers"][number.name] = values;
    }
    all["caution"] = caution;
    return json_text(all);
}

} // namespace vrid
