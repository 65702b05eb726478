#include "io/toml/table_reader.hpp"

#include <cassert>
#include <charconv>
#include <cmath>
#include <limits>

#include "io/toml/accepted.hpp"
#include "io/toml/board_keys.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t longest_text = 200;

// What stands in the file, short enough for a message.
std::string shown(std::string_view text) {
    constexpr std::size_t most = 60;
    const std::string whole = unspelled(text);
    std::string plain = whole.substr(0, most);
    for (char& c : plain) { // an escape may have put anything there
        c = static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? '?' : c;
    }
    return plain + (whole.size() > most ? "..." : "");
}

} // namespace

std::string shown(const toml::node& node) {
    if (const auto* text = node.as_string()) {
        return "the text \"" + shown(text->get()) + "\"";
    }
    if (const auto number = node.value_exact<double>()) {
        constexpr int digits = 12; // 200.0000001 is told from the 200 that is accepted
        return shortest(round_significant(*number, digits));
    }
    if (const auto whole = node.value_exact<std::int64_t>()) {
        return std::to_string(*whole);
    }
    if (const auto flag = node.value_exact<bool>()) {
        return *flag ? "true" : "false";
    }
    if (const auto* array = node.as_array()) {
        return "an array of " + std::to_string(array->size());
    }
    return node.is_table() ? "a table" : "a date or time";
}

TableReader::TableReader(Reading& reading, const toml::table& table, std::string place,
                         std::string path, std::string kind)
    : reading_(&reading), table_(&table), place_(std::move(place)), path_(std::move(path)),
      kind_(std::move(kind)) {}

TableReader TableReader::root(Reading& reading, const toml::table& table) {
    return {reading, table, reading.file + ":1:1", "", ""};
}

std::string TableReader::place_of(const toml::node& node) const {
    const auto begin = node.source().begin;
    return begin.line == 0 ? place_ : place_text(*reading_, begin);
}

std::string TableReader::place(std::string_view key) const {
    const toml::node* node = table_->get(key);
    return node == nullptr ? place_ : place_of(*node);
}

std::string TableReader::dotted(std::string_view key) const {
    return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
}

void TableReader::rename(std::string path) {
    path_ = std::move(path);
    reading_->places.try_emplace(path_, place_);
}

bool TableReader::has(std::string_view key) const {
    return table_->contains(key);
}

void TableReader::problem(std::string_view key, const std::string& message) {
    note_problem(*reading_, place(key), shown(dotted(key)) + ": " + message);
}

void TableReader::warn(std::string_view key, const std::string& message) {
    note_warning(*reading_, place(key), shown(dotted(key)) + ": " + message);
}

void TableReader::wrong(std::string_view key, const std::string& what_is_accepted) {
    const toml::node* node = table_->get(key);
    const std::string found = node == nullptr ? "missing" : "found " + shown(*node);
    problem(key, found + "; accepted: " + what_is_accepted);
}

void TableReader::refuse(std::string_view key, const std::string& why) {
    if (has(key)) {
        asked_.emplace(key);
        problem(key, why);
    }
}

void TableReader::finish() {
    const std::vector<std::string> valid(asked_.begin(), asked_.end());
    std::string listed;
    for (const std::string& key : valid) {
        listed += (listed.empty() ? "; accepted: " : ", ") + key;
    }
    for (const auto& [key, node] : *table_) {
        if (!asked_.contains(key.str())) {
            const std::string place = key.source().begin.line == 0
                                          ? place_of(node)
                                          : place_text(*reading_, key.source().begin);
            const std::string name = path_.empty() ? std::string(key.str()) : dotted(key.str());
            note_problem(*reading_, place,
                         shown(name) + ": unknown key" + did_you_mean(key.str(), valid) + listed);
        }
    }
}

const toml::node* TableReader::ask(std::string_view key, bool is_number) {
    if (asked_.emplace(key).second) {
        reading_->keys.push_back({dotted(key), is_number});
    }
    const toml::node* node = table_->get(key);
    if (node != nullptr) {
        reading_->places.try_emplace(dotted(key), place_of(*node));
    }
    return node;
}

const toml::node* TableReader::require(std::string_view key, bool is_number) {
    const toml::node* node = ask(key, is_number);
    if (node == nullptr) {
        problem(key, "missing; this key is required");
    }
    return node;
}

// The value as the file writes it, in its range; nan after a problem.
double TableReader::checked(const toml::node& node, const std::string& name,
                            const std::string& range_key) {
    const Accepted& range = accepted(range_key);
    const auto value = node.is_number() ? node.value<double>() : std::nullopt;
    if (value && is_accepted(range, *value)) {
        return *value;
    }
    note_problem(*reading_, place_of(node),
                 shown(name) + ": found " + shown(node) + "; accepted: " + accepted_text(range));
    return nothing;
}

double TableReader::number(std::string_view key) {
    const toml::node* node = require(key, true);
    return node == nullptr
               ? nothing
               : to_si(key, checked(*node, dotted(key), kind_ + "." + std::string(key)));
}

double TableReader::number_or(std::string_view key, double otherwise) {
    return number_if(key).value_or(otherwise);
}

double TableReader::number_or_default(std::string_view key) {
    if (const auto given = number_if(key)) {
        return *given;
    }
    const BoardKey* row = find_board_key(kind_, key);
    assert(row != nullptr);
    double value = nothing;
    std::from_chars(row->otherwise.data(), row->otherwise.data() + row->otherwise.size(), value);
    assert(!std::isnan(value));
    return to_si(key, value);
}

std::optional<double> TableReader::number_if(std::string_view key) {
    ask(key, true);
    return has(key) ? std::optional(number(key)) : std::nullopt;
}

int TableReader::whole_number_or(std::string_view key, int otherwise) {
    const toml::node* node = ask(key, true);
    if (node == nullptr) {
        return otherwise;
    }
    const double value = checked(*node, dotted(key), kind_ + "." + std::string(key));
    if (!std::isnan(value) && value != std::floor(value)) {
        wrong(key, "a whole number");
    }
    return std::isnan(value) ? otherwise : static_cast<int>(value);
}

bool TableReader::flag_or(std::string_view key, bool otherwise) {
    const toml::node* node = ask(key);
    if (node != nullptr && !node->is_boolean()) {
        wrong(key, "true or false");
        return otherwise;
    }
    return node == nullptr ? otherwise : node->value_or(otherwise);
}

std::string TableReader::checked_text(std::string_view key, const toml::node& node) {
    const auto* value = node.as_string();
    if (value == nullptr) {
        wrong(key, "a text in quotes");
        return {};
    }
    std::string text = unspelled(value->get());
    bool printable = !text.empty() && text.size() <= longest_text;
    for (const char c : text) {
        printable = printable && static_cast<unsigned char>(c) >= 0x20 && c != 0x7f;
    }
    if (!printable) {
        problem(key, "found a text of " + std::to_string(text.size()) +
                         " bytes; accepted: 1 to 200 bytes on one line");
        return {};
    }
    return text;
}

std::string TableReader::text(std::string_view key) {
    const toml::node* node = require(key);
    return node == nullptr ? "" : checked_text(key, *node);
}

std::string TableReader::text_if(std::string_view key) {
    const toml::node* node = ask(key);
    return node == nullptr ? "" : checked_text(key, *node);
}

} // namespace vrid
