#pragma once

#include <algorithm>
#include <functional>
#include <ranges>
#include <string>
#include <type_traits>
#include <vector>

namespace vrid {

/// The items' texts one after the other: "a, b, c". \param text of an item
template <class Items, class Text = std::identity>
std::string joined(const Items& items, const std::string& between = ", ", Text text = {}) {
    std::string all;
    for (const auto& item : items) {
        all += (all.empty() ? "" : between) + std::invoke(text, item);
    }
    return all;
}

/// What `of` gives of each item of a list.
template <std::ranges::range List, class Of> auto each_of(const List& list, Of of) {
    std::vector<std::decay_t<std::invoke_result_t<Of&, std::ranges::range_reference_t<const List>>>>
        all;
    for (const auto& item : list) {
        all.push_back(std::invoke(of, item));
    }
    return all;
}

/// Whether the list has an item with that value. \param of what of an item is compared
template <std::ranges::range List, class Value, class Of = std::identity>
bool contains(const List& list, const Value& value, Of of = {}) {
    return std::ranges::find(list, value, of) != std::ranges::end(list);
}

/// Adds the value to a list that has it not yet.
template <class Value> void add_once(std::vector<Value>& list, const Value& value) {
    if (!contains(list, value)) {
        list.push_back(value);
    }
}

/// Sorts a list and leaves each value once.
template <class Value> void sort_distinct(std::vector<Value>& list) {
    std::ranges::sort(list);
    list.erase(std::unique(list.begin(), list.end()), list.end());
}

} // namespace vrid
