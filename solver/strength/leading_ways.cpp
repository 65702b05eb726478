#include "solver/strength/leading_ways.hpp"

#include <algorithm>
#include <functional>

#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr std::size_t refined_ways = 6;

const Weakness* least(const std::map<Way, Weakness>& all,
                      const std::function<bool(const Weakness&)>& which) {
    const Weakness* found = nullptr;
    for (const auto& [way, one] : all) {
        if (which(one) && (found == nullptr || one.factor < found->factor)) {
            found = &one;
        }
    }
    return found;
}

// Of a factor and those of the places of the way that almost break.
double least_almost(const Weakest& weakest, const Way& way, double factor) {
    const auto others = weakest.others.find(way);
    if (others != weakest.others.end()) {
        for (const Weakness& other : others->second) {
            factor = std::min(factor, other.factor);
        }
    }
    return factor;
}

} // namespace

void pick(FoundFailures& found) {
    const auto any = [](const Weakness&) { return true; };
    found.first = least(found.weakest.anywhere, any);
    found.away = least(found.weakest.away, any);
    found.breaking = least(found.weakest.anywhere, [](const Weakness& w) { return w.breaking; });
}

std::vector<const Weakness*> next_weaknesses(const FoundFailures& found) {
    constexpr std::size_t most = 3;
    std::vector<const Weakness*> others;
    for (const auto& [way, weakness] : found.weakest.anywhere) {
        if (&weakness != found.first) {
            others.push_back(&weakness);
        }
    }
    std::ranges::sort(others,
                      [](const Weakness* a, const Weakness* b) { return a->factor < b->factor; });
    others.resize(std::min(others.size(), most));
    return others;
}

std::vector<Way> leading_ways(const Weakest& weakest) {
    std::vector<Way> ways;
    for (const auto* map : {&weakest.anywhere, &weakest.away}) {
        for (const bool only_breaking : {false, true}) {
            std::vector<std::pair<double, Way>> sorted;
            for (const auto& [way, one] : *map) {
                if (!only_breaking) {
                    sorted.emplace_back(one.factor, way);
                } else if (one.breaking) {
                    sorted.emplace_back(least_almost(weakest, way, one.factor), way);
                }
            }
            std::ranges::sort(sorted);
            sorted.resize(std::min(sorted.size(), only_breaking ? 2 : refined_ways));
            for (const auto& one : sorted) {
                add_once(ways, one.second);
            }
        }
    }
    return ways;
}

} // namespace vrid
