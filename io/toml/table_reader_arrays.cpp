#include <cmath>
#include <limits>

#include "io/toml/accepted.hpp"
#include "io/toml/table_reader.hpp"
#include "io/write/units.hpp"

// Arrays and tables inside the table at hand.

namespace vrid {

namespace {

// Each station, strip, ply or layer costs mesh lines or work; a longer list is a mistake.
constexpr std::size_t most_entries = 1000;
constexpr double unread = std::numeric_limits<double>::quiet_NaN();

bool every_one_a_number(const std::vector<double>& values) {
    for (const double value : values) {
        if (std::isnan(value)) {
            return false;
        }
    }
    return true;
}

} // namespace

// Two numbers in the key's range, SI; empty after a problem.
std::vector<double> TableReader::numbers(std::string_view key, const toml::node& node) {
    const auto* array = node.as_array();
    if (array == nullptr || array->size() != 2) {
        wrong(key, "an array of two numbers");
        return {};
    }
    std::vector<double> values;
    for (std::size_t i = 0; i < 2; ++i) {
        const std::string name = dotted(key) + "[" + std::to_string(i) + "]";
        values.push_back(to_si(key, checked(*array->get(i), name, kind_ + "." + std::string(key))));
    }
    return every_one_a_number(values) ? values : std::vector<double>{};
}

std::optional<Range> TableReader::range_if(std::string_view key) {
    const toml::node* node = ask(key);
    if (node == nullptr) {
        return std::nullopt;
    }
    const auto values = numbers(key, *node);
    return values.empty() ? Range{unread, unread} : Range{values[0], values[1]};
}

std::optional<Eigen::Vector2d> TableReader::pair(std::string_view key) {
    const toml::node* node = require(key);
    const auto values = node == nullptr ? std::vector<double>{} : numbers(key, *node);
    return values.empty() ? std::nullopt : std::optional(Eigen::Vector2d(values[0], values[1]));
}

bool TableReader::too_long(std::string_view key, const toml::array& array) {
    if (array.size() > most_entries) {
        wrong(key, "at most " + std::to_string(most_entries) + " entries");
    }
    return array.size() > most_entries;
}

std::vector<Eigen::Vector2d> TableReader::pairs(std::string_view key,
                                                const std::string& first_range) {
    const toml::node* node = require(key, true);
    const auto* array = node == nullptr ? nullptr : node->as_array();
    if (node != nullptr && (array == nullptr || array->empty())) {
        wrong(key, "an array of [x, value] pairs");
    }
    if (array == nullptr || too_long(key, *array)) {
        return {};
    }
    std::vector<Eigen::Vector2d> found;
    const std::string second_range = kind_ + "." + std::string(key);
    for (std::size_t i = 0; i < array->size(); ++i) {
        const std::string name = dotted(key) + "[" + std::to_string(i) + "]";
        const toml::node& item = *array->get(i);
        const auto* two = item.as_array();
        if (two == nullptr || two->size() != 2) {
            note_problem(*reading_, place_of(item),
                         name + ": found " + shown(item) +
                             "; accepted: a pair of numbers, [x, value]");
            found.emplace_back(unread, unread); // the others keep their numbers
            continue;
        }
        reading_->keys.push_back({name, true});
        reading_->places.try_emplace(name, place_of(item));
        const double x = to_si(key, checked(*two->get(0), name + ", first", first_range));
        const double value = to_si(key, checked(*two->get(1), name + ", second", second_range));
        found.emplace_back(x, value);
    }
    return found;
}

std::vector<Eigen::Vector2d> TableReader::points(std::string_view key) {
    return pairs(key, kind_ + "." + std::string(key));
}

std::vector<Eigen::Vector2d> TableReader::stations(std::string_view key) {
    return pairs(key, kind_ + "." + std::string(key) + ".x_mm");
}

std::optional<TableReader> TableReader::table_if(std::string_view key) {
    const toml::node* node = ask(key);
    if (node == nullptr) {
        return std::nullopt;
    }
    if (!node->is_table()) {
        wrong(key, "a table");
        return std::nullopt;
    }
    const std::string kind = kind_.empty() ? std::string(key) : kind_ + "." + std::string(key);
    return TableReader(*reading_, *node->as_table(), place_of(*node), dotted(key), kind);
}

std::vector<TableReader> TableReader::tables(std::string_view key) {
    const toml::node* node = ask(key);
    std::vector<TableReader> found;
    if (node == nullptr) {
        return found;
    }
    const auto* array = node->as_array();
    if (array == nullptr) {
        wrong(key, "an array of tables");
        return found;
    }
    if (too_long(key, *array)) {
        return found;
    }
    const std::string kind = kind_.empty() ? std::string(key) : kind_ + "." + std::string(key);
    for (std::size_t i = 0; i < array->size(); ++i) {
        const toml::node& item = *array->get(i);
        const std::string name = dotted(key) + "[" + std::to_string(i) + "]";
        if (item.is_table()) {
            reading_->places.try_emplace(name, place_of(item));
            found.emplace_back(*reading_, *item.as_table(), place_of(item), name, kind);
        } else {
            note_problem(*reading_, place_of(item), name + ": accepted: a table");
        }
    }
    return found;
}

std::vector<std::pair<std::string, TableReader>> TableReader::entries(const std::string& kind) {
    std::vector<std::pair<std::string, TableReader>> found;
    for (const auto& [key, node] : *table_) {
        const std::string name(key.str());
        asked_.insert(name);
        if (!node.is_table()) {
            wrong(name, "a table");
            continue;
        }
        if (name.empty() || name.size() > 80) {
            problem(name, "accepted: a name of 1 to 80 bytes");
            continue;
        }
        const std::string plain = unspelled(name);
        found.emplace_back(
            plain, TableReader(*reading_, *node.as_table(), place_of(node), dotted(plain), kind));
    }
    return found;
}

} // namespace vrid
