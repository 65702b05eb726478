#include "io/design/board_draft.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "io/write/number.hpp"

namespace vrid {

namespace {

std::size_t begin_of(const BoardDraft& draft, const toml::source_region& region) {
    return offset_of(draft.text, draft.reading, region.begin);
}

std::size_t end_of(const BoardDraft& draft, const toml::source_region& region) {
    return offset_of(draft.text, draft.reading, region.end);
}

const toml::node* node_in(const toml::table& table, const std::string& name) {
    for (const auto& [key, node] : table) {
        if (unspelled(key.str()) == name) {
            return &node;
        }
    }
    return nullptr;
}

bool before(const toml::source_position& a, const toml::source_position& b) {
    return a.line < b.line || (a.line == b.line && a.column < b.column);
}

/// The key and value after which another can stand: the last plain one of the table.
struct Anchor {
    const toml::key* key = nullptr;
    const toml::node* value = nullptr;
};

Anchor anchor_of(const toml::table& table) {
    Anchor last;
    for (const auto& [key, node] : table) {
        const bool plain = !node.is_table() && !node.is_array();
        if (plain &&
            (last.key == nullptr || before(last.key->source().begin, key.source().begin))) {
            last = {&key, &node};
        }
    }
    return last;
}

std::size_t line_end(const std::string& text, std::size_t at) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    return end > at && text[end - 1] == '\r' ? end - 1 : end;
}

/// What stands before a key on its line: its indentation, and "mass_only." of a dotted key.
std::string before_key(const BoardDraft& draft, const Anchor& anchor, bool braces) {
    const std::size_t key = begin_of(draft, anchor.key->source());
    const std::size_t from =
        key == 0 ? std::string::npos : draft.text.find_last_of(braces ? "{,\n" : "\n", key - 1);
    const std::size_t first = from == std::string::npos ? 0 : from + 1;
    return draft.text.substr(first, key - first);
}

void add_number(BoardDraft& draft, const DraftTable& place, const std::string& key, double value) {
    const std::string pair = key + " = " + file_number(value);
    const Anchor anchor = anchor_of(*place.table);
    if (anchor.key == nullptr) {
        const std::size_t open = begin_of(draft, place.table->source());
        if (place.braces) {
            draft.edits.push_back({open + 1, 0, " " + pair + " "});
        } else {
            draft.edits.push_back({line_end(draft.text, open), 0, draft.newline + pair});
        }
        return;
    }
    const std::string prefix = before_key(draft, anchor, place.braces);
    const std::size_t end = end_of(draft, anchor.value->source());
    if (place.braces) {
        const std::size_t blank = std::min(prefix.find_first_not_of(" \t"), prefix.size());
        draft.edits.push_back({end, 0, ", " + prefix.substr(blank) + pair});
    } else {
        draft.edits.push_back({line_end(draft.text, end), 0, draft.newline + prefix + pair});
    }
}

} // namespace

std::string with_edits(const std::string& text, std::vector<TextEdit> edits) {
    std::ranges::stable_sort(edits, {}, &TextEdit::at);
    std::string edited;
    std::size_t done = 0;
    for (const TextEdit& edit : edits) {
        edited.append(text, done, edit.at - done).append(edit.with);
        done = edit.at + edit.length;
    }
    return edited.append(text, done);
}

std::size_t offset_of(const std::string& text, const Reading& reading,
                      const toml::source_position& position) {
    std::size_t at = text.starts_with("\xef\xbb\xbf") ? 3 : 0; // the parser saw no byte order mark
    const auto line = static_cast<int>(position.line);
    for (int i = 1; i < line; ++i) {
        at = text.find('\n', at) + 1;
    }
    const int column = file_column(reading.widened, line, static_cast<int>(position.column));
    for (int i = 1; i < column && at < text.size(); ++i) {
        ++at; // the rest of a character are bytes 10xxxxxx
        while (at < text.size() && (static_cast<std::uint8_t>(text[at]) & 0xc0U) == 0x80U) {
            ++at;
        }
    }
    return at;
}

std::string file_number(double value) {
    constexpr int digits = 12; // the way to SI and back takes the last three or four of sixteen
    return shortest(round_significant(value, digits) + 0.0); // no -0
}

std::string quoted(const std::string& text) {
    std::string all = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') {
            all += '\\';
        }
        all += c;
    }
    return all + "\"";
}

BoardDraft board_draft(const std::string& text, const std::string& file) {
    Reading reading{file, {}, {}, {}};
    toml::table root = parse_toml(text, reading);
    const std::size_t end = text.find('\n');
    const bool carriage = end != std::string::npos && end > 0 && text[end - 1] == '\r';
    return {text, carriage ? "\r\n" : "\n", std::move(reading), std::move(root), {}, ""};
}

std::optional<DraftTable> table_in(const DraftTable& table, const std::string& name) {
    const toml::node* node = node_in(*table.table, name);
    if (node == nullptr || !node->is_table()) {
        return std::nullopt;
    }
    return DraftTable{node->as_table(), table.braces || node->as_table()->is_inline()};
}

std::vector<DraftTable> tables_in(const DraftTable& table, const std::string& name) {
    std::vector<DraftTable> found;
    const toml::node* node = node_in(*table.table, name);
    if (node != nullptr && node->is_array()) {
        for (const toml::node& item : *node->as_array()) {
            if (const toml::table* inner = item.as_table()) {
                found.push_back({inner, table.braces || inner->is_inline()});
            }
        }
    }
    return found;
}

void set_number(BoardDraft& draft, const toml::node& node, double value) {
    const std::string now = file_number(value);
    if (const auto was = node.value<double>(); was && file_number(*was) == now) {
        return;
    }
    constexpr const char* letters = "0123456789+-._abcdefoxABCDEFinINaA";
    const std::size_t at = begin_of(draft, node.source());
    const std::size_t end = std::min(draft.text.find_first_not_of(letters, at), draft.text.size());
    draft.edits.push_back({at, end - at, now});
}

void set_number(BoardDraft& draft, const DraftTable& table, const std::string& key, double value) {
    if (const toml::node* node = node_in(*table.table, key)) {
        set_number(draft, *node, value);
    } else {
        add_number(draft, table, key, value);
    }
}

void set_text(BoardDraft& draft, const DraftTable& table, const std::string& key,
              const std::string& value) {
    const toml::source_region& region = table.table->get(key)->source();
    const std::size_t at = begin_of(draft, region);
    draft.edits.push_back({at, end_of(draft, region) - at, quoted(value)});
}

void add_table(BoardDraft& draft, const std::string& outer, const std::string& comment,
               const std::string& table) {
    if (const auto found = table_in({&draft.root, false}, outer); found && found->braces) {
        throw InputError(place_text(draft.reading, found->table->source().begin),
                         outer +
                             ": no entry can be added to a table in braces; accepted: entries "
                             "as [" +
                             outer + ".NAME]");
    }
    draft.appended += "\n" + (comment.empty() ? "" : "# " + comment + "\n") + table;
}

std::string finished(const BoardDraft& draft) {
    std::string text = with_edits(draft.text, draft.edits);
    if (draft.appended.empty()) {
        return text;
    }
    if (!text.empty() && text.back() != '\n') {
        text += draft.newline;
    }
    for (const char c : draft.appended) {
        text += c == '\n' ? draft.newline : std::string(1, c);
    }
    return text;
}

} // namespace vrid
