#include "io/materials/design_paths.hpp"

#include <algorithm>
#include <charconv>
#include <utility>

#include "io/toml/name_pattern.hpp"
#include "io/write/design_path.hpp"

namespace vrid {

namespace {

/// "layer", "base", "angle_deg": names may hold dots, tables and keys do not.
struct PathParts {
    std::string table, name, key;
};

PathParts parts_of(const std::string& path) {
    const std::size_t first = path.find('.');
    const std::size_t last = path.rfind('.');
    if (first == std::string::npos) {
        return {"", "", path};
    }
    return {path.substr(0, first), first == last ? "" : path.substr(first + 1, last - first - 1),
            path.substr(last + 1)};
}

/// The station count in "thickness_mm[3]".
std::optional<std::size_t> index_in(const std::string& key) {
    const std::size_t open = key.rfind('[');
    std::size_t index = 0;
    if (open == std::string::npos || key.back() != ']') {
        return std::nullopt;
    }
    const char* end = key.data() + key.size() - 1;
    const auto read = std::from_chars(key.data() + open + 1, end, index);
    return read.ec == std::errc{} && read.ptr == end ? std::optional(index) : std::nullopt;
}

} // namespace

std::string key_of_path(const std::string& path) {
    const PathParts parts = parts_of(path);
    if (parts.table == "layer" && (parts.name.ends_with(".zone") || parts.name.ends_with("]"))) {
        return "layer.zone." + parts.key.substr(0, parts.key.find('['));
    }
    if (parts.table == "edge" && parts.name == "flange") {
        return "edge.flange." + parts.key;
    }
    const std::string key = parts.key.substr(0, parts.key.find('['));
    return parts.table.empty() ? key : parts.table + "." + key;
}

bool covers(const std::string& pattern, const std::string& path) {
    const std::string row = path.ends_with(']') ? path.substr(0, path.rfind('[')) : path;
    return pattern == path || pattern == row || pattern == key_of_path(path) ||
           (pattern.find('*') != std::string::npos &&
            (fits_pattern(path, pattern, "*") || fits_pattern(row, pattern, "*")));
}

std::size_t precision(const std::string& pattern) {
    const auto stars = std::ranges::count(pattern, '*');
    return pattern.size() - static_cast<std::size_t>(stars);
}

std::vector<std::string> covered_paths(const std::string& pattern,
                                       const std::vector<std::string>& paths) {
    std::vector<std::string> covered;
    std::ranges::copy_if(paths, std::back_inserter(covered),
                         [&](const std::string& path) { return covers(pattern, path); });
    return covered;
}

namespace {

bool moves_numbers(const Board& board, const DesignPlace& place) {
    return place.id.kind->moves_numbers && (board.cure || !place.id.kind->of_cure);
}

} // namespace

std::vector<std::string> number_paths(const Board& board) {
    Board copy = board; // the places refer to a board that can be changed
    std::vector<std::string> paths;
    for (const DesignPlace& place : design_places(copy)) {
        if (moves_numbers(board, place)) {
            paths.push_back(path_of(place.id));
        }
    }
    const auto place = [](const std::string& path) { // station 10 after station 9
        const auto index = index_in(path);
        return std::pair(index ? path.substr(0, path.rfind('[')) : path, index);
    };
    std::ranges::sort(
        paths, [&](const std::string& a, const std::string& b) { return place(a) < place(b); });
    return paths;
}

std::optional<DesignFound> find_design(const Board& board, const std::string& path) {
    Board copy = board;
    for (const DesignPlace& place : design_places(copy)) {
        if (moves_numbers(board, place) && path_of(place.id) == path) {
            return DesignFound{place.id, *value_now(place)};
        }
    }
    return std::nullopt;
}

} // namespace vrid
