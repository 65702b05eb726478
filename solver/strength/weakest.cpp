#include "solver/strength/weakest.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "solver/system/numbering.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::Vector2d;

constexpr std::array around{std::pair(1, 0), std::pair(-1, 0), std::pair(0, 1),  std::pair(0, -1),
                            std::pair(1, 1), std::pair(-1, 1), std::pair(1, -1), std::pair(-1, -1)};
constexpr double first_step = 8e-3, last_step = 0.25e-3; // of the walk downhill [m]

bool held(const Loading& loading, int node, Component component) {
    return loading.fixed[static_cast<std::size_t>(unknowns_per_node * node + component)] != 0;
}

double distance_to(const std::vector<double>& lines, double x) {
    double least = HUGE_VAL;
    for (const double line : lines) {
        least = std::min(least, std::abs(x - line));
    }
    return least;
}

void keep_least(std::map<Way, Weakness>& known, const Weakness& one) {
    const auto [found, fresh] = known.try_emplace({one.layer, one.mode}, one);
    if (!fresh) {
        // of equal ones, as on both sides of a symmetric board, the left
        const double margin = 1e-9 * found->second.factor;
        const bool less = one.factor < found->second.factor - margin;
        const bool equal = !less && one.factor <= found->second.factor + margin;
        if (less || (equal && one.at.y() > found->second.at.y() + 1e-9)) {
            found->second = one;
        }
    }
}

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
    std::stable_sort(all.begin(), all.end(),
                     [](const Weakness& a, const Weakness& b) { return a.factor < b.factor; });
    std::vector<Weakness> starts;
    for (const Weakness& one : all) {
        if (starts.size() <= most_starts &&
            std::all_of(starts.begin(), starts.end(), [&](const Weakness& other) {
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

} // namespace

HeldParts held_parts(const PlateModel& model, const Loading& loading) {
    HeldParts parts;
    for (const std::vector<int>& nodes : model.numbering.quad_nodes) {
        const bool all = std::all_of(nodes.begin(), nodes.end(), [&](int node) {
            return held(loading, node, comp_w) && held(loading, node, comp_bx) &&
                   held(loading, node, comp_by);
        });
        parts.quads.push_back(all ? 1 : 0);
    }
    for (const StationLine& line : model.mesh.lines) {
        bool all_held = !line.edges.empty();
        bool pushed = false;
        for (const int edge : line.edges) {
            for (const int node : edge_nodes(model.mesh, model.numbering, edge)) {
                all_held = all_held && held(loading, node, comp_w);
                pushed = pushed || loading.force(Index(unknowns_per_node) * node + comp_w) != 0;
            }
        }
        if (all_held || pushed) {
            parts.lines.push_back(line.x);
        }
    }
    return parts;
}

bool breaks(FailureMode mode, MaterialFamily family) {
    switch (mode) {
    case FailureMode::fibre_tension:
    case FailureMode::fibre_compression:
    case FailureMode::grain_tension:
    case FailureMode::core_shear:
    case FailureMode::delamination:
    case FailureMode::wrinkling:
        return true;
    case FailureMode::yield:
        return family == MaterialFamily::metal;
    case FailureMode::grain_compression:
    case FailureMode::crack_across:
    case FailureMode::crush_across:
    case FailureMode::in_plane_shear:
        return false;
    }
    return false;
}

WeakestSearch::WeakestSearch(const Layup<double>& layup, const JudgedLayup& judged,
                             const Mesh& mesh, Criterion criterion)
    : layup_(layup), judged_(judged), criterion_(criterion), sections_(layup),
      maker_(mesh, sections_), discs_(maker_.all()) {}

PointLaminate WeakestSearch::point_at(const Disc& disc) {
    return point_laminate(layup_, judged_, sections_.stacks()[static_cast<std::size_t>(disc.stack)],
                          disc.centre);
}

std::optional<PointLoad> WeakestSearch::load_at(const Motion& motion, const Disc& disc,
                                                const PointLaminate& point) const {
    const auto strain = mean_strain(disc, motion.strain, motion.held.quads);
    if (!strain) {
        return std::nullopt;
    }
    return PointLoad{strain->head<3>(), strain->segment<3>(3), point.section.S * strain->tail<2>()};
}

void WeakestSearch::judge(const Motion& motion, const Disc& disc, const PointLaminate& point,
                          const std::function<void(const Weakness&)>& visit) {
    const auto load = load_at(motion, disc, point);
    if (!load) {
        return;
    }
    const PointResidual before = residual ? residual(disc, point) : PointResidual{};
    const double aside = distance_to(motion.held.lines, disc.centre.x());
    for (const int sign : motion.signs) {
        const PointLoad one{sign * load->e, sign * load->k, sign * load->Q};
        visit_failures(point, one, before, criterion_, [&](const PointFailure& failure) {
            const JudgedPly& ply = *point.plies[failure.ply];
            visit({failure.factor, sign, ply.layer, ply.number, ply.angle, failure.mode,
                   breaks(failure.mode, ply.parts[failure.part].family), failure.z, disc.centre,
                   disc.stack, disc.diameter, aside});
        });
    }
}

std::vector<Weakest> WeakestSearch::over_board(const std::vector<Motion>& motions) {
    std::vector<Weakest> all(motions.size());
    for (const Disc& disc : discs_) {
        const PointLaminate point = point_at(disc);
        for (std::size_t i = 0; i < motions.size(); ++i) {
            judge(motions[i], disc, point, [&](const Weakness& one) {
                keep_least(all[i].anywhere, one);
                if (one.aside > one.diameter) {
                    keep_least(all[i].away, one);
                }
            });
        }
    }
    return all;
}

std::optional<Weakness> WeakestSearch::at(const Motion& motion, const Vector2d& point, int stack,
                                          const Way& way) {
    const auto disc = maker_.at(point, stack);
    if (!disc) {
        return std::nullopt;
    }
    std::optional<Weakness> least;
    judge(motion, *disc, point_at(*disc), [&](const Weakness& one) {
        if (one.layer == way.first && one.mode == way.second &&
            (!least || one.factor < least->factor)) {
            least = one;
        }
    });
    return least;
}

std::pair<double, int> WeakestSearch::largest_index(const Motion& motion, double factor) {
    std::pair<double, int> largest{0, 1};
    for (const Disc& disc : discs_) {
        const PointLaminate point = point_at(disc);
        const auto load = load_at(motion, disc, point);
        if (!load) {
            continue;
        }
        const PointResidual before = residual ? residual(disc, point) : PointResidual{};
        for (const int sign : motion.signs) {
            const double by = sign * factor;
            const double index = failure_index(point, {by * load->e, by * load->k, by * load->Q},
                                               before, criterion_);
            if (index > largest.first) {
                largest = {index, sign};
            }
        }
    }
    return largest;
}

double WeakestSearch::index_at(const Motion& motion, const Weakness& place) {
    const auto disc = maker_.at(place.at, place.stack);
    if (!disc) {
        return 0;
    }
    const PointLaminate point = point_at(*disc);
    const auto load = load_at(motion, *disc, point);
    const PointResidual before = residual ? residual(*disc, point) : PointResidual{};
    return load ? failure_index(point, *load, before, criterion_) : 0;
}

void WeakestSearch::refine(const Motion& motion, const std::vector<Way>& ways, Weakest& weakest) {
    const auto walk = [&](Weakness& place, const Way& way, bool away) {
        for (double step = first_step; step >= last_step; step /= 2) {
            bool moved = true;
            for (int round = 0; moved && round < 8; ++round) {
                moved = false;
                for (const auto& [x, y] : around) {
                    const auto next =
                        at(motion, place.at + step * Vector2d(x, y), place.stack, way);
                    if (next && next->factor < place.factor &&
                        (!away || next->aside > next->diameter)) {
                        place = *next;
                        moved = true;
                        break;
                    }
                }
            }
        }
    };
    Candidates near_least; // as weakest: anywhere, then away
    for (const Disc& disc : discs_) {
        judge(motion, disc, point_at(disc), [&](const Weakness& one) {
            const Way way{one.layer, one.mode};
            if (std::find(ways.begin(), ways.end(), way) != ways.end()) {
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
            walk(found->second, way, away);
            for (Weakness start : apart(near_least[away ? 1 : 0][way])) {
                walk(start, way, away);
                keep_least(known, start);
            }
        }
    }
}

} // namespace vrid
