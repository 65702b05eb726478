// The places of the search moved to where they are weakest.
#include <algorithm>
#include <array>
#include <cmath>

#include "solver/strength/weakest.hpp"

namespace vrid {

namespace {

constexpr std::array around{std::pair(1, 0), std::pair(-1, 0), std::pair(0, 1),  std::pair(0, -1),
                            std::pair(1, 1), std::pair(-1, 1), std::pair(1, -1), std::pair(-1, -1)};
// Steps of the walk downhill [m]: from each start to `coarse`, from the best of these to `fine`,
// polished to `finest`. At a border the load goes with the distance to it, by some 0.3 % a mm.
constexpr double first_step = 8e-3, coarse = 1e-3, fine = 0.25e-3, finest = 2.5e-6;
constexpr double worth_more = 1.01; // of the best after `coarse`: walked on from
constexpr double flat = 2e-6;       // change of the factor over a step that needs no smaller one

// Where a walk may come lower than from a way's least. It stays in its stack.
constexpr double elsewhere = 12e-3, neighbours = 22e-3; // beyond those among the discs [m]
constexpr std::size_t most_apart = 3, most_starts = 5, most_almost = 3;

bool beside(const Weakness& a, const Weakness& b) {
    return a.stack == b.stack && (a.at - b.at).norm() < neighbours;
}

// The least of them that lie apart. \param all least first
std::vector<Weakness> apart(const std::vector<Weakness>& all) {
    std::vector<Weakness> starts;
    for (const Weakness& one : all) {
        if (starts.size() <= most_apart && std::ranges::all_of(starts, [&](const Weakness& other) {
                return (other.at - one.at).norm() > elsewhere;
            })) {
            starts.push_back(one);
        }
    }
    return starts;
}

// Adds those that have no weaker neighbour: each in a hollow of its own. \param all least first
void add_hollows(const std::vector<Weakness>& all, std::size_t most,
                 std::vector<Weakness>& starts) {
    for (auto one = all.begin(); one != all.end() && starts.size() < most; ++one) {
        const auto near = [&](const Weakness& other) { return beside(other, *one); };
        if (std::none_of(all.begin(), one, near) && std::ranges::none_of(starts, near)) {
            starts.push_back(*one);
        }
    }
}

// Where to walk from: the least of a way, places nearly as weak, then such as almost break.
std::vector<Weakness> starts_of(const Weakness& least, const std::vector<Weakness>& near,
                                bool away) {
    std::array<std::vector<Weakness>, 2> all;
    for (const Weakness& one : near) {
        if (nearly_as_weak(one, least) && (!away || one.aside > one.diameter)) {
            all[one.almost() ? 1 : 0].push_back(one);
        }
    }
    for (std::vector<Weakness>& one : all) {
        std::ranges::stable_sort(one, {}, &Weakness::factor);
    }
    all[0].insert(all[0].begin(), least);
    std::vector<Weakness> starts = apart(all[0]);
    add_hollows(all[0], 1 + most_starts, starts);
    std::vector<Weakness> almost;
    add_hollows(all[1], most_almost, almost);
    starts.insert(starts.end(), almost.begin(), almost.end());
    return starts;
}

// Places that a walk ended at, away from the least and from one another.
void add_others(const std::vector<Weakness>& ends, const Weakness& least,
                std::vector<Weakness>& others) {
    for (const Weakness& end : ends) {
        if ((end.almost() || !beside(end, least)) &&
            std::ranges::none_of(others, [&](const Weakness& other) {
                return end.almost() == other.almost() && beside(end, other);
            })) {
            others.push_back(end);
        }
    }
}

// Those that are worth walking on from, each place once.
std::vector<Weakness> best_of(std::vector<Weakness> starts) {
    std::erase_if(starts, [](const Weakness& one) { return one.almost(); });
    std::ranges::stable_sort(starts, {}, &Weakness::factor);
    std::vector<Weakness> best;
    for (const Weakness& one : starts) {
        if (one.factor <= worth_more * starts.front().factor &&
            std::ranges::none_of(best, [&](const Weakness& other) {
                return other.stack == one.stack && (other.at - one.at).norm() < 2 * coarse;
            })) {
            best.push_back(one);
        }
    }
    return best;
}

} // namespace

// The point a step away, or, where no quad with that stack holds it, the one on the border beside
// it; a stack may be a band much narrower than the step. Nothing: there is none nearby.
std::optional<Vector2d> WeakestSearch::step_to(const Weakness& place, const Vector2d& step) {
    const Vector2d target = place.at + step;
    if (maker_.holds(target, place.stack)) {
        return target;
    }
    constexpr double narrowest = 1. / 64; // band over step
    for (double share = 1; share >= narrowest; share /= 2) {
        for (const double side : {share, -share}) {
            const Vector2d aside = side * Vector2d(-step.y(), step.x());
            if (!maker_.holds(target + aside, place.stack)) {
                continue;
            }
            double out = 0;
            double in = 1;
            while (in - out > 1e-2) {
                const double middle = (in + out) / 2;
                (maker_.holds(target + middle * aside, place.stack) ? in : out) = middle;
            }
            return target + in * aside;
        }
    }
    return std::nullopt;
}

// Downhill in steps from the first to the last; ends where smaller ones change nothing.
std::optional<Weakness> WeakestSearch::walk(const Motion& motion, const WalkRule& rule,
                                            Weakness& place) {
    const Weakness* const part = rule.almost ? &place : nullptr;
    std::optional<Weakness> breaking;
    for (double step = rule.from; step >= rule.to * (1 - 1e-9); step /= step > fine ? 2 : 2.5) {
        bool moved = true;
        double change = 0;
        for (int round = 0; moved && round < 8; ++round) {
            moved = false;
            change = 0;
            for (const auto& [x, y] : around) {
                const auto target = step_to(place, step * Vector2d(x, y));
                const auto next =
                    target ? at(motion, *target, place.stack, rule.way, part) : std::nullopt;
                if (!next || (rule.away && next->aside <= next->diameter)) {
                    continue;
                }
                if (rule.almost && !next->almost() &&
                    (!breaking || next->factor < breaking->factor)) {
                    breaking = next;
                }
                change = std::max(change, std::abs(next->factor / place.factor - 1));
                if (next->factor < place.factor) {
                    place = *next;
                    moved = true;
                    break;
                }
            }
        }
        if (step < fine && !moved && change < flat) {
            break;
        }
    }
    return breaking;
}

void WeakestSearch::refine(const Motion& motion, const std::vector<Way>& ways, Weakest& weakest,
                           bool polished) {
    const std::map<Way, std::vector<Weakness>> near = std::move(weakest.others);
    weakest.others.clear();
    for (const Way& way : ways) {
        for (const bool away : {false, true}) {
            auto& known = away ? weakest.away : weakest.anywhere;
            const auto found = known.find(way);
            if (found == known.end()) {
                continue;
            }
            std::vector<Weakness> starts = starts_of(found->second, near.at(way), away);
            for (std::size_t i = 0, all = starts.size(); i < all; ++i) {
                const WalkRule rule{way, away, starts[i].almost(), first_step, coarse};
                if (const auto breaking = walk(motion, rule, starts[i])) {
                    starts.push_back(*breaking);
                }
            }
            for (Weakness& start : best_of(starts)) {
                walk(motion, {way, away, false, coarse / 2, polished ? finest : fine}, start);
                keep_least(known, start);
            }
            std::ranges::stable_sort(starts, {}, &Weakness::factor);
            add_others(starts, known.at(way), weakest.others[way]);
        }
    }
}

} // namespace vrid
