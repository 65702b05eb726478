#include "io/read/keys_text.hpp"

#include "io/toml/accepted.hpp"
#include "io/toml/board_keys.hpp"
#include "io/write/caution.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

std::string form_text(KeyForm form) {
    switch (form) {
    case KeyForm::number:
        return "number";
    case KeyForm::whole:
        return "whole number";
    case KeyForm::text:
        return "text";
    case KeyForm::flag:
        return "true or false";
    case KeyForm::pair:
        return "[a, b]";
    case KeyForm::stations:
        return "[[place, value], ...]";
    case KeyForm::points:
        return "[[x, y], ...]";
    case KeyForm::table:
        return "table";
    case KeyForm::tables:
        return "tables";
    }
    return "";
}

std::string bounds_text(const BoardKey& key) {
    const Bounds& bounds = key.bounds;
    constexpr double no_limit = 1e12;
    if (!key.holds_numbers() || bounds.max >= no_limit) {
        return "";
    }
    return (bounds.min_open ? "above " : "") + number_text(bounds.min) + " to " +
           (bounds.max_open ? "below " : "") + number_text(bounds.max);
}

std::string unit_of(const BoardKey& key) {
    return std::string(file_unit(key.key).name);
}

std::string heading(const std::string& table) {
    return table.empty() ? "at the top of the file" : "[" + table + "]";
}

// The rows of the table asked for and of those within it, or else of the key at the top of the
// file.
std::vector<BoardKey> rows_of(const std::string& asked) {
    std::vector<BoardKey> rows;
    for (const BoardKey& key : board_keys()) {
        const std::string table(key.table);
        const bool within = table.ends_with("." + asked); // "zone" of a layer
        if (asked.empty() || table == asked || table.starts_with(asked + ".") || within) {
            rows.push_back(key);
        }
    }
    if (const BoardKey* key = find_board_key("", asked); rows.empty() && key != nullptr) {
        rows.push_back(*key);
    }
    if (rows.empty()) {
        const std::vector<std::string> all = known_keys();
        throw InputError("", "the board file has no table '" + asked + "'" +
                                 did_you_mean(asked, all) + "; there are " + joined(all));
    }
    return rows;
}

// Of tables whose keys are names.
std::string names_note(std::string_view table) {
    return table == "tolerance"
               ? "  its keys are design values by path or pattern: vrid help names\n"
           : table == "limits" ? "  one for each number, by its name: vrid help names\n"
                               : "";
}

} // namespace

std::vector<std::string> known_keys() {
    std::vector<std::string> all = board_tables();
    for (const BoardKey& key : board_keys()) {
        if (key.table.empty()) {
            add_once(all, std::string(key.key));
        }
    }
    return all;
}

std::string keys_text(const std::string& table) {
    const std::vector<BoardKey> rows = rows_of(table);
    std::string all;
    for (auto row = rows.begin(); row != rows.end();) {
        Table lines{{left("key"), left(""), left("unit"), left("accepted"), left("when absent"),
                     left("meaning")}};
        const std::string name(row->table);
        for (; row != rows.end() && row->table == name; ++row) {
            lines.rows.push_back({std::string(row->key), form_text(row->form), unit_of(*row),
                                  bounds_text(*row), std::string(row->otherwise),
                                  std::string(row->meaning)});
        }
        const bool named = name.empty() && rows.size() == 1 && rows[0].form == KeyForm::table;
        const std::string shown_as = named ? table : name; // a table without keys of its own
        all += (all.empty() ? "" : "\n") + heading(shown_as) + "\n" + text(lines) +
               names_note(shown_as);
    }
    return all;
}

std::string keys_json(const std::string& table) {
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["keys"] = Json::array();
    for (const BoardKey& key : rows_of(table)) {
        Json one{{"table", key.table},
                 {"key", key.key},
                 {"form", form_text(key.form)},
                 {"unit", unit_of(key)}};
        if (key.holds_numbers()) {
            one["min"] = key.bounds.min;
            one["max"] = key.bounds.max;
            one["min_accepted"] = !key.bounds.min_open;
            one["max_accepted"] = !key.bounds.max_open;
        }
        one["otherwise"] = key.otherwise;
        one["meaning"] = key.meaning;
        all["keys"].push_back(one);
    }
    return json_text(all);
}

std::string key_comment(const std::string& table, const std::string& key) {
    const BoardKey* row = find_board_key(table, key);
    if (row == nullptr) {
        return "";
    }
    std::string comment(row->meaning);
    std::string values = unit_of(*row);
    if (const std::string bounds = bounds_text(*row); !bounds.empty()) {
        values += (values.empty() ? "" : ", ") + bounds;
    }
    if (!values.empty()) {
        comment += "; " + values;
    }
    const std::string otherwise(row->otherwise);
    if (otherwise.starts_with("required") || otherwise.find(' ') != std::string::npos) {
        return comment + "; " + otherwise;
    }
    return comment + (otherwise.empty() ? "" : "; default " + otherwise);
}

} // namespace vrid
