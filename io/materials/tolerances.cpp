#include "io/materials/tolerances.hpp"

#include <cmath>

#include "io/materials/design_paths.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

using Entries = std::map<std::string, ToleranceEntry>;

/// The entry that is meant for a path; the end if none.
Entries::const_iterator entry_for(const Entries& entries, const std::string& path) {
    auto best = entries.find(path);
    if (best != entries.end()) {
        return best;
    }
    for (auto at = entries.begin(); at != entries.end(); ++at) {
        if (covers(at->first, path) &&
            (best == entries.end() || precision(at->first) > precision(best->first))) {
            best = at;
        }
    }
    return best;
}

double deviation(const ToleranceEntry& entry, const std::string& path, double nominal) {
    return entry.percent ? std::abs(nominal) * entry.value / 100
                         : to_si(key_of_path(path), entry.value);
}

/// Whether a value is the most that can be, as the share that a material which does not creep shows
/// after hours: half of all boards that a deviation draws of it could not be.
bool is_most(const std::string& path, double nominal) {
    const std::string key = key_of_path(path);
    return from_si(key, nominal) >= accepted(key).max;
}

} // namespace

std::vector<Tolerance> tolerances_of(const Board& board, const MaterialLibrary& library) {
    std::vector<Tolerance> all;
    for (const std::string& path : number_paths(board)) {
        const DesignFound nominal = *find_design(board, path);
        auto entry = entry_for(board.tolerance, path);
        const bool own = entry != board.tolerance.end();
        if (!own) {
            entry = entry_for(library.tolerance, path);
        }
        const bool named = own && entry->first == path;
        if ((own || entry != library.tolerance.end()) && (named || !is_most(path, nominal.value))) {
            const double sd = deviation(entry->second, path, nominal.value);
            if (sd > 0) {
                all.push_back(
                    {nominal.id, sd, own ? "[tolerance] of the board" : entry->second.source});
            }
        }
    }
    return all;
}

std::string tolerance_entry(const Board& board, const MaterialLibrary& library,
                            const std::string& path) {
    if (const auto own = entry_for(board.tolerance, path); own != board.tolerance.end()) {
        return own->first;
    }
    const auto found = entry_for(library.tolerance, path);
    return found == library.tolerance.end() ? "" : found->first;
}

std::vector<std::string> tolerances_without_effect(const Board& board) {
    const std::vector<std::string> paths = number_paths(board);
    std::vector<std::string> idle;
    for (const auto& [pattern, entry] : board.tolerance) {
        if (covered_paths(pattern, paths).empty()) {
            idle.push_back(pattern);
        }
    }
    return idle;
}

} // namespace vrid
