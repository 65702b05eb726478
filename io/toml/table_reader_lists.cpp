
#include "io/toml/table_reader.hpp"
#include "io/write/units.hpp"

// Lists of any length, and values of which only the user of the file knows the meaning.

namespace vrid {

const toml::array* TableReader::list(std::string_view key) {
    const toml::node* node = require(key);
    const auto* array = node == nullptr ? nullptr : node->as_array();
    if (node != nullptr && (array == nullptr || array->empty())) {
        wrong(key, "an array of at least one entry");
        return nullptr;
    }
    return array == nullptr || too_long(key, *array) ? nullptr : array;
}

std::vector<std::string> TableReader::texts(std::string_view key) {
    std::vector<std::string> found;
    if (const toml::array* array = list(key)) {
        for (const toml::node& item : *array) {
            found.push_back(checked_text(key, item));
        }
    }
    return found;
}

std::vector<double> TableReader::number_list(std::string_view key) {
    std::vector<double> found;
    if (const toml::array* array = list(key)) {
        for (std::size_t i = 0; i < array->size(); ++i) {
            const std::string name = dotted(key) + "[" + std::to_string(i) + "]";
            found.push_back(
                to_si(key, checked(*array->get(i), name, kind_ + "." + std::string(key))));
        }
    }
    return found;
}

void TableReader::collect_values(const toml::table& table, const std::string& prefix,
                                 std::vector<ValueEntry>& entries) {
    for (const auto& [key, node] : table) {
        const std::string path = prefix + unspelled(key.str());
        if (const auto* inner = node.as_table()) {
            collect_values(*inner, path + ".", entries); // nesting is limited by the scan
        } else if (const auto* text = node.as_string()) {
            entries.push_back({path, unspelled(text->get()), place_of(node)});
        } else if (const auto number = node.is_number() ? node.value<double>() : std::nullopt) {
            entries.push_back({path, *number, place_of(node)});
        } else {
            note_problem(*reading_, place_of(node), path + ": accepted: a number or a text");
        }
    }
}

std::vector<ValueEntry> TableReader::flat_values() {
    std::vector<ValueEntry> entries;
    collect_values(*table_, "", entries);
    return entries;
}

std::optional<std::variant<double, std::string>>
TableReader::number_or_text_if(std::string_view key) {
    const toml::node* node = ask(key);
    if (node == nullptr) {
        return std::nullopt;
    }
    if (const auto* text = node->as_string()) {
        return unspelled(text->get());
    }
    const auto number = node->is_number() ? node->value<double>() : std::nullopt;
    if (!number) {
        wrong(key, "a number or a text");
        return std::nullopt;
    }
    return *number;
}

} // namespace vrid
