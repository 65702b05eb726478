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

// The table asked for and those within it.
std::vector<std::string> tables_of(const std::string& asked) {
    std::vector<std::string> found;
    const std::vector<std::string> all = board_tables();
    for (const std::string& table : all) {
        const bool within = table.ends_with("." + asked); // "zone" of a layer
        if (asked.empty() || table == asked || table.starts_with(asked + ".") || within) {
            found.push_back(table);
        }
    }
    if (found.empty()) {
        throw InputError("", "the board file has no table '" + asked + "'" +
                                 did_you_mean(asked, all) + "; there are " + joined(all));
    }
    return found;
}

std::string table_text(const std::string& name) {
    Table table{{left("key"), left(""), left("unit"), left("accepted"), left("when absent"),
                 left("meaning")}};
    for (const BoardKey& key : board_keys()) {
        if (key.table == name) {
            table.rows.push_back({std::string(key.key), form_text(key.form), unit_of(key),
                                  bounds_text(key), std::string(key.otherwise),
                                  std::string(key.meaning)});
        }
    }
    return heading(name) + "\n" + text(table);
}

} // namespace

std::string keys_text(const std::string& table) {
    std::string all;
    for (const std::string& name : tables_of(table)) {
        all += (all.empty() ? "" : "\n") + table_text(name);
    }
    return all;
}

std::string keys_json(const std::string& table) {
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["keys"] = Json::array();
    const std::vector<std::string> tables = tables_of(table);
    for (const BoardKey& key : board_keys()) {
        if (!contains(tables, key.table)) {
            continue;
        }
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
