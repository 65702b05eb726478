#include "io/write/held_limits.hpp"

#include <algorithm>
#include <cctype>
#include <limits>

namespace vrid {
namespace {

/// How far inside its bounds the value is; below zero outside.
double margin(const LimitVerdict& verdict) {
    double least = std::numeric_limits<double>::infinity();
    if (verdict.limit.min) {
        least = verdict.found->value - *verdict.limit.min;
    }
    if (verdict.limit.max) {
        least = std::min(least, *verdict.limit.max - verdict.found->value);
    }
    return least;
}

bool is_one_limit(const HeldLimit& held, const LimitVerdict& verdict, const std::string& number) {
    const Limit& limit = held.worst.limit;
    return number_in_condition(held.worst.name) == number && limit.min == verdict.limit.min &&
           limit.max == verdict.limit.max;
}

} // namespace

std::string number_in_condition(const std::string& name) {
    std::size_t at = name.find(" N/mm"); // and 2 or 3
    if (!name.starts_with("edge ") || at == std::string::npos) {
        return "";
    }
    at += std::string_view(" N/mm3").size();
    const auto skip = [&](const std::string& word) {
        const bool found = name.compare(at, word.size(), word) == 0;
        at += found ? word.size() : 0;
        return found;
    };
    skip(" right");
    // the share of the front foot is a number; "share nose" is one of the edge's
    if (const std::size_t value = at + std::string_view(" share ").size();
        value < name.size() && std::isdigit(static_cast<unsigned char>(name[value])) != 0 &&
        skip(" share ")) {
        at = name.find(' ', at);
    }
    if (at < name.size()) {
        skip(" bent");
    }
    return at < name.size() ? name.substr(at + 1) : "";
}

std::vector<HeldLimit> held_limits(const std::vector<LimitVerdict>& verdicts) {
    std::vector<HeldLimit> all;
    for (const LimitVerdict& verdict : verdicts) {
        const std::size_t outside = verdict.exceeded ? 1 : 0;
        const std::string number = verdict.found ? number_in_condition(verdict.name) : "";
        const auto same = std::ranges::find_if(all, [&](const HeldLimit& held) {
            return !number.empty() && held.worst.found && is_one_limit(held, verdict, number);
        });
        if (same == all.end()) {
            all.push_back({verdict, 1, outside});
            continue;
        }
        ++same->conditions;
        same->outside += outside;
        if (margin(verdict) < margin(same->worst)) {
            same->worst = verdict;
        }
    }
    return all;
}

std::string conditions_words(const HeldLimit& held) {
    if (held.conditions == 1) {
        return "";
    }
    const std::string all = std::to_string(held.conditions);
    return held.outside == 0 || held.outside == held.conditions
               ? "in all " + all + " conditions"
               : "in " + std::to_string(held.outside) + " of " + all + " conditions";
}

} // namespace vrid
