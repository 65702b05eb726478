#include "io/live/board_values.hpp"

#include <algorithm>
#include <functional>
#include <map>

#include "io/design/board_draft.hpp"
#include "io/toml/ascii_text.hpp"
#include "io/toml/board_keys.hpp"

namespace vrid {

namespace {

/// What is done with each value: its node and table are those of the draft.
using Visit = std::function<void(FileValue value, const toml::node& node, const DraftTable& table,
                                 const std::string& key)>;

/// Where the walk is: the path so far and the table's name among the keys.
struct Place {
    std::string path, kind, group, part;
};

bool names_material(const std::string& key) {
    return key == "material" || key == "fill";
}

void visit_table(const DraftTable& table, const Place& place, const Visit& visit);

void visit_array(const toml::array& array, const DraftTable& table, const std::string& key,
                 const Place& place, const Visit& visit) {
    std::size_t index = 0;
    for (const toml::node& item : array) {
        const std::string at = place.path + "[" + std::to_string(index++) + "]";
        if (const toml::table* inner = item.as_table()) {
            visit_table({inner, table.braces || inner->is_inline()},
                        {at, place.kind, place.group, place.part}, visit);
        } else if (item.is_number()) {
            visit({at, place.kind, place.group, place.part, item.value_or(0.0)}, item, table, key);
        }
    }
}

void visit_table(const DraftTable& table, const Place& place, const Visit& visit) {
    for (const auto& [name, node] : *table.table) {
        const std::string key = unspelled(name.str());
        const Place inner{place.path + "." + key, place.kind + "." + key, place.group, place.part};
        const BoardKey* known = find_board_key(place.kind, key);
        if (const toml::table* inside = node.as_table()) {
            visit_table({inside, table.braces || inside->is_inline()}, inner, visit);
        } else if (const toml::array* array = node.as_array()) {
            visit_array(*array, table, key, inner, visit);
        } else if (known != nullptr && node.is_number() && known->holds_numbers()) {
            visit({inner.path, inner.kind, place.group, place.part, node.value_or(0.0)}, node,
                  table, key);
        } else if (known != nullptr && node.is_string() && names_material(key)) {
            visit({inner.path, inner.kind, place.group, place.part,
                   unspelled(node.value_or<std::string>(""))},
                  node, table, key);
        }
    }
}

/// Each layer's zones, and the material of a sheet.
void visit_layer(const DraftTable& layer, const Visit& visit) {
    const std::string name = unspelled((*layer.table)["name"].value_or<std::string>(""));
    const Place place{"layer." + name, "layer", "layer", name};
    for (const char* key : {"zone", "zones"}) {
        const Place inner{place.path + "." + key, "layer.zone", place.group, place.part};
        if (const auto zone = table_in(layer, key)) {
            visit_table(*zone, inner, visit);
        } else if (const toml::array* zones = (*layer.table)[key].as_array()) {
            visit_array(*zones, layer, key, inner, visit);
        }
    }
    if (const toml::node* sheet = layer.table->get("material"); sheet != nullptr) {
        visit({place.path + ".material", "layer.material", "layer", name,
               unspelled(sheet->value_or<std::string>(""))},
              *sheet, layer, "material");
    }
}

void visit_all(const BoardDraft& draft, const Visit& visit) {
    const DraftTable root{&draft.root, false};
    if (const auto core = table_in(root, "core")) {
        for (const std::string key : {"strips", "strips_left", "strips_right"}) {
            if (const toml::array* strips = (*core->table)[key].as_array()) {
                visit_array(*strips, *core, key, {"core." + key, "core." + key, "core", ""}, visit);
            }
        }
    }
    for (const DraftTable& layer : tables_in(root, "layer")) {
        visit_layer(layer, visit);
    }
    for (const std::string group :
         {"planform", "edge", "sidewall", "tip_spacer", "stance", "mass_only"}) {
        if (const auto table = table_in(root, group)) {
            visit_table(*table, {group, group, group, ""}, visit);
        }
    }
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

} // namespace

std::vector<FileValue> file_values(const BoardText& source) {
    const BoardDraft draft = board_draft(source.text, source.file);
    std::map<std::pair<unsigned, unsigned>, FileValue> by_place; // a table's keys come by name
    visit_all(draft,
              [&](FileValue value, const toml::node& node, const DraftTable&, const std::string&) {
                  const toml::source_position& at = node.source().begin;
                  by_place[{at.line, at.column}] = std::move(value);
              });
    std::vector<FileValue> all;
    for (auto& [place, value] : by_place) {
        all.push_back(std::move(value));
    }
    return all;
}

std::string with_file_values(const BoardText& source, const std::vector<Change>& changes) {
    BoardDraft draft = board_draft(source.text, source.file);
    std::vector<Problem> problems;
    std::size_t found = 0;
    visit_all(draft, [&](const FileValue& value, const toml::node& node, const DraftTable& table,
                         const std::string& key) {
        for (const Change& change : changes) {
            if (change.path != value.path) {
                continue;
            }
            ++found;
            if (change.value.index() != value.value.index()) {
                problems.push_back({change.path, value.value.index() == 0 ? "accepted: a number"
                                                                          : "accepted: a text"});
            } else if (const auto* number = std::get_if<double>(&change.value)) {
                set_number(draft, node, *number);
            } else {
                set_text(draft, table, key, std::get<std::string>(change.value));
            }
        }
    });
    if (found < changes.size() && problems.empty()) {
        problems.push_back({changes.front().path, "the file has no such value"});
    }
    throw_if_any(problems);
    return finished(draft);
}

std::vector<ChangedLine> changed_lines(const std::string& before, const std::string& after) {
    const std::vector<std::string> a = lines_of(before), b = lines_of(after);
    std::size_t same = 0, tail = 0;
    const std::size_t least = std::min(a.size(), b.size());
    while (same < least && a[same] == b[same]) {
        ++same;
    }
    while (tail < least - same && a[a.size() - 1 - tail] == b[b.size() - 1 - tail]) {
        ++tail;
    }
    // Longest common subsequence of what is between: an edit leaves that short.
    const std::size_t n = a.size() - same - tail, m = b.size() - same - tail;
    std::vector<std::vector<unsigned>> kept(n + 1, std::vector<unsigned>(m + 1, 0));
    for (std::size_t i = n; i-- > 0;) {
        for (std::size_t j = m; j-- > 0;) {
            kept[i][j] = a[same + i] == b[same + j] ? kept[i + 1][j + 1] + 1
                                                    : std::max(kept[i + 1][j], kept[i][j + 1]);
        }
    }
    std::vector<ChangedLine> changed;
    for (std::size_t i = 0, j = 0; i < n || j < m;) {
        if (i < n && j < m && a[same + i] == b[same + j]) {
            ++i, ++j;
        } else if (i < n && (j == m || kept[i + 1][j] >= kept[i][j + 1])) {
            changed.push_back({same + i + 1, false, a[same + i]});
            ++i;
        } else {
            changed.push_back({same + j + 1, true, b[same + j]});
            ++j;
        }
    }
    return changed;
}

} // namespace vrid
