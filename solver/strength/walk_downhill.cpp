// The places of the search moved to where they are weakest.
#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/board/lists.hpp"
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

// Places nearly as weak as the least by the same way, from which a walk may come lower.
using Candidates = std::array<std::map<Way, std::vector<Weakness>>, 2>;
constexpr double nearly = 1.3;      // of the least factor
constexpr double elsewhere = 12e-3; // apart [m]
constexpr std::size_t most_starts = 3;

void add_candidate(const std::map<Way, Weakness>& least, const Way& way, const Weakness& one,
                   std::map<Way, std::vector<Weakness>>& all) {
    const auto found = least.find(way);
    if (found != least.end() && one.factor <= nearly * found->second.factor) {
        all[way].push_back(one);
    }
}

// The least of them that lie apart, also from the least of all, which is the first.
std::vector<Weakness> apart(std::vector<Weakness> all) {
    std::ranges::stable_sort(all, {}, &Weakness::factor);
    std::vector<Weakness> starts;
    for (const Weakness& one : all) {
        if (starts.size() <= most_starts && std::ranges::all_of(starts, [&](const Weakness& other) {
                return (other.at - one.at).norm() > elsewhere;
            })) {
            starts.push_back(one);
        }
    }
    if (!starts.empty()) {
        starts.erase(starts.begin()); // the least: it has been walked from
    }
    return starts;
}

// Those that are worth walking on from, each place once.
std::vector<Weakness> best_of(std::vector<Weakness> starts) {
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
void WeakestSearch::walk(const Motion& motion, const WalkRule& rule, Weakness& place) {
    for (double step = rule.from; step >= rule.to * (1 - 1e-9); step /= step > fine ? 2 : 2.5) {
        bool moved = true;
        double change = 0;
        for (int round = 0; moved && round < 8; ++round) {
            moved = false;
            change = 0;
            for (const auto& [x, y] : around) {
                const auto target = step_to(place, step * Vector2d(x, y));
                const auto next =
                    target ? at(motion, *target, place.stack, rule.way) : std::nullopt;
                if (!next || (rule.away && next->aside <= next->diameter)) {
                    continue;
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
            return;
        }
    }
}

void WeakestSearch::refine(const Motion& motion, const std::vector<Way>& ways, Weakest& weakest,
                           bool polished) {
    Candidates near_least; // as weakest: anywhere, then away
    for (const Disc& disc : discs_) {
        judge(motion, disc, point_at(disc), [&](const Weakness& one) {
            const Way way{one.layer, one.mode};
            if (contains(ways, way)) {
                add_candidate(weakest.anywhere, way, one, near_least[0]);
                if (one.aside > one.diameter) {
                    add_candidate(weakest.away, way, one, near_least[1]);
                }
            }
        });
    }
    for (const Way& way : ways) {
        for (const bool away : {false, true}) {
            auto& known = away ? weakest.away : weakest.anywhere;
            const auto found = known.find(way);
            if (found == known.end()) {
                continue;
            }
            std::vector<Weakness> starts = apart(near_least[away ? 1 : 0][way]);
            starts.insert(starts.begin(), found->second);
            for (Weakness& start : starts) {
                walk(motion, {way, away, first_step, coarse}, start);
            }
            for (Weakness& start : best_of(starts)) {
                walk(motion, {way, away, coarse / 2, polished ? finest : fine}, start);
                keep_least(known, start);
            }
        }
    }
}

} // namespace vrid
