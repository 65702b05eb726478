#include "io/design/what_if.hpp"

#include <algorithm>
#include <charconv>
#include <set>

#include "io/design/board_draft.hpp"
#include "io/design/design_values.hpp"
#include "io/materials/design_paths.hpp"
#include "io/read/content_hash.hpp"
#include "io/toml/board_keys.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

constexpr const char* option = "--set";

std::variant<double, std::string> value_in(const std::string& word) {
    double number = 0;
    const char* const end = word.data() + word.size();
    const char* const begin = word.data() + (word.starts_with('+') ? 1 : 0);
    const auto [last, wrong] = std::from_chars(begin, end, number);
    if (wrong == std::errc() && last == end && begin != end) {
        return number;
    }
    const bool quotes = word.size() > 1 && word.front() == '"' && word.back() == '"';
    return quotes ? word.substr(1, word.size() - 2) : word;
}

/// Where a path leads in a file: to a value, or to a table that has no such key.
struct Found {
    const toml::node* node = nullptr;
    DraftTable table;
    std::string kind, key; ///< as board_keys names them
};

/// The number between brackets at the front of a text, which loses it: "[3].width_mm".
std::optional<std::size_t> take_index(std::string& rest) {
    std::size_t index = 0;
    const auto close = rest.find(']');
    if (!rest.starts_with('[') || close == std::string::npos) {
        return std::nullopt;
    }
    const auto [last, wrong] = std::from_chars(rest.data() + 1, rest.data() + close, index);
    if (wrong != std::errc() || last != rest.data() + close) {
        return std::nullopt;
    }
    rest.erase(0, close + 1);
    return index;
}

/// Whether a path goes on from a name; it loses the name and the point after it.
bool take_name(std::string& rest, const std::string& name) {
    if (!rest.starts_with(name)) {
        return false;
    }
    const std::string after = rest.substr(name.size());
    if (!after.empty() && after.front() != '.' && after.front() != '[') {
        return false;
    }
    rest = after.starts_with('.') ? after.substr(1) : after;
    return true;
}

bool has_named_tables(const std::string& kind) {
    return kind == "material" || kind == "fabric" || kind == "limits";
}

Found find_in(const DraftTable& table, std::string rest, const std::string& kind);

Found find_in_array(const toml::array& array, const DraftTable& table, std::string rest,
                    const std::string& kind, const std::string& key) {
    const std::string inner = kind.empty() ? key : kind + "." + key;
    if (inner == "layer") { // by name
        for (const toml::node& item : array) {
            const toml::table* layer = item.as_table();
            const auto name = layer ? (*layer)["name"].value<std::string>() : std::nullopt;
            std::string after = rest;
            if (name && take_name(after, unspelled(*name))) {
                return find_in({layer, layer->is_inline()}, after, inner);
            }
        }
        return {};
    }
    if (rest.empty()) {
        return {&array, table, kind, key};
    }
    const auto index = take_index(rest);
    if (!index || *index >= array.size()) {
        return {};
    }
    const toml::node& item = *array.get(*index);
    if (const toml::table* entry = item.as_table()) {
        return find_in({entry, table.braces || entry->is_inline()},
                       rest.starts_with('.') ? rest.substr(1) : rest, inner);
    }
    if (const toml::array* pair = item.as_array()) { // a station: its value is meant
        return {rest.empty() ? pair->get(1) : nullptr, table, kind, key};
    }
    return {rest.empty() ? &item : nullptr, table, kind, key};
}

Found find_in(const DraftTable& table, std::string rest, const std::string& kind) {
    for (const auto& [key, node] : *table.table) {
        const std::string name = unspelled(key.str());
        std::string after = rest;
        if (!take_name(after, name)) {
            continue;
        }
        if (const toml::table* inner = node.as_table()) {
            const std::string inside = has_named_tables(kind) && !find_board_key(kind, name) ? kind
                                       : kind.empty()                                        ? name
                                                      : kind + "." + name;
            if (Found found = find_in({inner, table.braces || inner->is_inline()}, after, inside);
                found.node != nullptr || !found.key.empty()) {
                return found;
            }
        } else if (const toml::array* array = node.as_array()) {
            if (Found found = find_in_array(*array, table, after, kind, name);
                found.node != nullptr || !found.key.empty()) {
                return found;
            }
        } else if (after.empty()) {
            return {&node, table, kind, name};
        }
    }
    const BoardKey* absent = find_board_key(kind, rest);
    return absent != nullptr && !kind.empty() ? Found{nullptr, table, kind, rest} : Found{};
}

void replace(BoardDraft& draft, const toml::node& node, std::size_t length, std::string with) {
    draft.edits.push_back(
        {offset_of(draft.text, draft.reading, node.source().begin), length, std::move(with)});
}

/// Writes the setting into the draft; what is wrong is returned.
std::string write(BoardDraft& draft, const Setting& setting) {
    const Found found = find_in({&draft.root, false}, setting.path, "");
    const auto* number = std::get_if<double>(&setting.value);
    const auto* text = std::get_if<std::string>(&setting.value);
    if (found.node == nullptr) {
        const BoardKey* key = find_board_key(found.kind, found.key);
        const bool plain =
            key != nullptr && (key->form == KeyForm::number || key->form == KeyForm::whole);
        if (!plain || number == nullptr) {
            return "the file has no such value";
        }
        set_number(draft, found.table, found.key, *number);
    } else if (found.node->is_number() && number != nullptr) {
        set_number(draft, *found.node, *number);
    } else if (found.node->is_boolean() && text != nullptr &&
               (*text == "true" || *text == "false")) {
        constexpr std::size_t length_of_true = 4;
        constexpr std::size_t length_of_false = 5;
        replace(draft, *found.node, found.node->value_or(false) ? length_of_true : length_of_false,
                *text);
    } else if (found.node->is_string() && text != nullptr) {
        const auto& region = found.node->source();
        replace(draft, *found.node,
                offset_of(draft.text, draft.reading, region.end) -
                    offset_of(draft.text, draft.reading, region.begin),
                quoted(*text));
    } else {
        return found.node->is_number()    ? "accepted: a number"
               : found.node->is_boolean() ? "accepted: true or false"
               : found.node->is_string()  ? "accepted: a text"
                                          : "names several values; accepted: one of them";
    }
    return "";
}

bool moves_lines(const Board& board, const std::string& path) {
    const auto found = find_design(board, path);
    return found && found->id.kind->moves_lines;
}

} // namespace

std::vector<Setting> settings_of(const std::vector<std::string>& words) {
    std::vector<Setting> settings;
    std::vector<Problem> problems;
    std::set<std::string> paths;
    for (const std::string& word : words) {
        const auto equals = word.find('=');
        const auto trimmed = [](std::string text) {
            const auto first = text.find_first_not_of(' ');
            const auto last = text.find_last_not_of(' ');
            return first == std::string::npos ? "" : text.substr(first, last - first + 1);
        };
        const std::string path = trimmed(word.substr(0, equals));
        const std::string value =
            equals == std::string::npos ? "" : trimmed(word.substr(equals + 1));
        if (path.empty() || value.empty()) {
            problems.push_back({option, "found '" + word + "'; accepted: PATH=VALUE"});
        } else if (!paths.insert(path).second) {
            problems.push_back({option, "\"" + path + "\" is set twice"});
        } else {
            settings.push_back({path, value_in(value), word});
        }
    }
    throw_if_any(problems);
    return settings;
}

std::string text_of(const Setting& setting) {
    const auto* number = std::get_if<double>(&setting.value);
    return setting.path + " = " +
           (number != nullptr ? file_number(*number) : std::get<std::string>(setting.value));
}

NamedBoard read_what_if(const BoardText& source, const MaterialLibrary& library,
                        const std::vector<Setting>& settings) {
    NamedBoard plain = read_named_board(source, library);
    if (settings.empty()) {
        return plain;
    }
    const std::vector<std::string> values = design_value_paths(plain.board);
    std::vector<Change> changes;
    std::vector<Problem> problems;
    BoardDraft draft = board_draft(source.text, source.file);
    for (const Setting& setting : settings) {
        const bool design = std::ranges::binary_search(values, setting.path);
        // what moves lines goes into the file where it stands there: its reader checks the whole
        const bool of_file = design && moves_lines(plain.board, setting.path) &&
                             std::holds_alternative<double>(setting.value) &&
                             write(draft, setting).empty();
        if (of_file) {
            continue;
        }
        if (design) {
            changes.push_back({setting.path, setting.value, option});
        } else if (const std::string wrong = write(draft, setting); !wrong.empty()) {
            problems.push_back(
                {option, "\"" + setting.path + "\": " + wrong +
                             did_you_mean(setting.path, board_key_paths(source, library))});
        }
    }
    throw_if_any(problems);
    NamedBoard read =
        draft.edits.empty()
            ? std::move(plain)
            : read_named_board({finished(draft), source.file, source.folder}, library);
    apply_changes(read.board, changes, read.named);
    std::string all;
    for (const Setting& setting : settings) {
        read.set.push_back(text_of(setting));
        all += (all.empty() ? " with " : ", ") + read.set.back();
    }
    read.board.hash = content_hash({read.board.hash, all});
    read.board.name += all;
    return read;
}

} // namespace vrid
