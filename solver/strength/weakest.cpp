#include "solver/strength/weakest.hpp"

#include <algorithm>
#include <cmath>

#include "solver/strength/point_index.hpp"
#include "solver/system/numbering.hpp"

namespace vrid {

namespace {

bool worth_keeping(const Weakest& known, const Weakness& one) {
    const auto& all = one.aside > one.diameter ? known.away : known.anywhere;
    const auto least = all.find({one.layer, one.mode});
    return least != all.end() && nearly_as_weak(one, least->second);
}

// Named by the largest of the stresses in the ply's plane.
bool in_plane(FailureMode mode) {
    return mode != FailureMode::core_shear && mode != FailureMode::delamination &&
           mode != FailureMode::wrinkling;
}

bool of_part(const Weakness& a, const Weakness& b) {
    return a.layer == b.layer && a.ply == b.ply && a.part == b.part && a.sign == b.sign;
}

// The same way but for the name of the stress in the ply's plane.
bool same_kind(const Weakness& a, const Weakness& b) {
    return of_part(a, b) && (a.mode == b.mode || (in_plane(a.mode) && in_plane(b.mode)));
}

// Of two of the same kind at one place: at the height in the ply, else the weaker.
bool nearer(const Weakness& a, const Weakness& b, const Weakness& to) {
    const double apart = std::abs(a.z - to.z) - std::abs(b.z - to.z);
    return in_plane(to.mode) && std::abs(apart) > 1e-9 ? apart < 0 : a.factor < b.factor;
}

// Visits it, and what almost breaks a second time, by that name. \param along see along_part
void visit_named(Weakness& one, MaterialFamily family, double along,
                 const std::function<void(const Weakness&)>& visit) {
    constexpr double almost = 0.8;
    one.breaking = breaks(one.mode, family);
    const bool may_break =
        family == MaterialFamily::fibre || (family == MaterialFamily::wood && along > 0);
    one.along = one.breaking ? 1 : may_break ? std::abs(along) : 0;
    visit(one);
    if (!one.breaking && one.along >= almost) {
        one.breaking = true;
        one.factor /= one.along;
        one.mode = family == MaterialFamily::wood ? FailureMode::grain_tension
                   : along > 0                    ? FailureMode::fibre_tension
                                                  : FailureMode::fibre_compression;
        visit(one);
    }
}

bool held(const Loading& loading, int node, Component component) {
    return loading.fixed[static_cast<std::size_t>(unknowns_per_node * node + component)] != 0;
}

} // namespace

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

void keep_near(Weakest& known, const Weakness& one) {
    if (!worth_keeping(known, one)) {
        return;
    }
    std::vector<Weakness>& near = known.others[{one.layer, one.mode}];
    if (near.size() == near.capacity()) { // the least has become less since
        std::erase_if(near, [&](const Weakness& other) { return !worth_keeping(known, other); });
        near.reserve(std::max<std::size_t>(16, 2 * near.size()));
    }
    near.push_back(one);
}

double factor_of(double index, Criterion criterion) {
    return criterion == Criterion::tsai_hill ? 1 / std::sqrt(index) : 1 / index;
}

double index_of(double factor, Criterion criterion) {
    return criterion == Criterion::tsai_hill ? 1 / (factor * factor) : 1 / factor;
}

double distance_to(const HeldParts& held, const Vector2d& at) {
    double least = HUGE_VAL;
    for (const double line : held.lines) {
        least = std::min(least, std::abs(at.x() - line));
    }
    for (const Eigen::AlignedBox2d& box : held.boxes) {
        least = std::min(least, box.exteriorDistance(at));
    }
    for (const Vector2d& place : held.loaded) {
        least = std::min(least, (place - at).norm());
    }
    return least;
}

HeldParts held_parts(const PlateModel& model, const Loading& loading) {
    HeldParts parts;
    for (const std::vector<int>& nodes : model.numbering.quad_nodes) {
        const bool all = std::ranges::all_of(nodes, [&](int node) {
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
    const double aside = distance_to(motion.held, disc.centre);
    for (const int sign : motion.signs) {
        const PointLoad one{sign * load->e, sign * load->k, sign * load->Q};
        const auto weak = [&](const auto& way, double factor) {
            const JudgedPly& ply = *point.plies[way.ply];
            Weakness weakness{factor,     sign,          ply.layer, ply.number, way.part,
                              ply.angle,  way.mode,      false,     way.z,      disc.centre,
                              disc.stack, disc.diameter, aside};
            visit_named(weakness, ply.parts[way.part].family, way.along, visit);
        };
        if (as_it_is) {
            visit_indices(point, one, before, criterion_, [&](const PointIndex& way) {
                if (way.index > 0) {
                    weak(way, factor_of(way.index, criterion_));
                }
            });
        } else {
            visit_failures(point, one, before, criterion_,
                           [&](const PointFailure& way) { weak(way, way.factor); });
        }
    }
}

std::vector<Weakest> WeakestSearch::over_board(const std::vector<Motion>& motions) {
    std::vector<Weakest> all(motions.size());
    for (const Disc& disc : discs_) {
        const PointLaminate point = point_at(disc);
        for (std::size_t i = 0; i < motions.size(); ++i) {
            judge(motions[i], disc, point, [&](const Weakness& one) {
                if (!one.almost()) {
                    keep_least(all[i].anywhere, one);
                    if (one.aside > one.diameter) {
                        keep_least(all[i].away, one);
                    }
                }
                keep_near(all[i], one);
            });
        }
    }
    return all;
}

std::optional<double> WeakestSearch::again(const Motion& motion, const Weakness& failure,
                                           bool breaking) {
    const auto disc = maker_.at(failure.at, failure.stack);
    if (!disc) {
        return std::nullopt;
    }
    std::optional<Weakness> same;
    judge({motion.strain, motion.held, {failure.sign}}, *disc, point_at(*disc),
          [&](const Weakness& one) {
              if (!one.almost() && same_kind(one, failure) &&
                  (!same || nearer(one, *same, failure))) {
                  same = one;
              }
          });
    if (!same || (breaking && same->along == 0)) {
        return std::nullopt;
    }
    return breaking ? same->factor / same->along : same->factor;
}

std::optional<Weakness> WeakestSearch::at(const Motion& motion, const Vector2d& point, int stack,
                                          const Way& way, const Weakness* part) {
    const auto disc = maker_.at(point, stack);
    if (!disc) {
        return std::nullopt;
    }
    std::optional<Weakness> least;
    judge(motion, *disc, point_at(*disc), [&](const Weakness& one) {
        const bool asked = part == nullptr ? !one.almost() : of_part(one, *part);
        if (asked && one.layer == way.first && one.mode == way.second &&
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

} // namespace vrid
