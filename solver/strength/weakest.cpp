#include "solver/strength/weakest.hpp"

#include <algorithm>
#include <cmath>

#include "solver/strength/point_index.hpp"
#include "solver/system/numbering.hpp"

namespace vrid {

namespace {

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
        const auto weak = [&](std::size_t number, std::size_t part, FailureMode mode, double factor,
                              double z) {
            const JudgedPly& ply = *point.plies[number];
            visit({factor, sign, ply.layer, ply.number, ply.angle, mode,
                   breaks(mode, ply.parts[part].family), z, disc.centre, disc.stack, disc.diameter,
                   aside});
        };
        if (as_it_is) {
            visit_indices(point, one, before, criterion_, [&](const PointIndex& way) {
                if (way.index > 0) {
                    weak(way.ply, way.part, way.mode, factor_of(way.index, criterion_), way.z);
                }
            });
        } else {
            visit_failures(point, one, before, criterion_, [&](const PointFailure& way) {
                weak(way.ply, way.part, way.mode, way.factor, way.z);
            });
        }
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

} // namespace vrid
