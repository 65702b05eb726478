#include "solver/shop/core_volume.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesh/board/zones.hpp"
#include "solver/shop/board_regions.hpp"

namespace vrid {

namespace {

// Gauss rule of three points on 0..1: exact to degree 5.
const double root = std::sqrt(0.15);
const std::array<double, 3> gauss_at{0.5 - root, 0.5, 0.5 + root};
constexpr std::array<double, 3> gauss_weight{5.0 / 18, 4.0 / 9, 5.0 / 18};

/// A profile and its integral from its first station.
class ProfileIntegral {
  public:
    explicit ProfileIntegral(const Profile& profile)
        : profile_(profile), slopes_(smooth_slopes(profile)), upto_(profile.x.size(), 0.0) {
        for (std::size_t i = 0; i + 1 < profile.x.size(); ++i) {
            upto_[i + 1] = upto_[i] + stretch(profile.x[i], profile.x[i + 1]);
        }
    }

    [[nodiscard]] double operator()(double x) const {
        const auto above = std::ranges::upper_bound(profile_.x, x);
        const std::size_t i = above == profile_.x.begin()
                                  ? 0
                                  : static_cast<std::size_t>(above - profile_.x.begin()) - 1;
        return upto_[i] + stretch(profile_.x[i], x);
    }

    [[nodiscard]] const std::vector<double>& stations() const { return profile_.x; }

  private:
    [[nodiscard]] double stretch(double from, double to) const {
        double sum = 0;
        for (std::size_t k = 0; k < gauss_at.size(); ++k) {
            sum += gauss_weight[k] * value_at(profile_, slopes_, from + (to - from) * gauss_at[k]);
        }
        return sum * (to - from);
    }

    const Profile& profile_;
    std::vector<double> slopes_, upto_;
};

// Integral of F(s) dt along a straight border, F the integral of a profile over s; cut at stations.
double along_border(const ProfileIntegral& F, double s0, double s1, double t0, double t1) {
    std::vector<double> cuts{0, 1};
    for (const double station : F.stations()) {
        if ((station - s0) * (station - s1) < 0) {
            cuts.push_back((station - s0) / (s1 - s0));
        }
    }
    std::ranges::sort(cuts);
    double sum = 0;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
        for (std::size_t k = 0; k < gauss_at.size(); ++k) {
            const double u = cuts[i] + (cuts[i + 1] - cuts[i]) * gauss_at[k];
            sum += gauss_weight[k] * (cuts[i + 1] - cuts[i]) * F(s0 + (s1 - s0) * u);
        }
    }
    return sum * (t1 - t0);
}

double profile_volume(const Profile& profile, const Region& where, bool across) {
    const ProfileIntegral F(profile);
    double sum = 0;
    for (const Loop& loop : where.loops) {
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const Eigen::Vector2d& a = loop[i];
            const Eigen::Vector2d& b = loop[(i + 1) % loop.size()];
            sum += across ? -along_border(F, a.y(), b.y(), a.x(), b.x())
                          : along_border(F, a.x(), b.x(), a.y(), b.y());
        }
    }
    return sum;
}

} // namespace

double core_volume(const Board& board, const Region& where) {
    double volume = profile_volume(board.core->thickness, where, false);
    if (board.core->cross) {
        volume += profile_volume(*board.core->cross, where, true);
    }
    for (const Layer& layer : board.layers) {
        if (layer.inlay) {
            const Region outline = planform_region(board.planform);
            for (const ZoneGroup& group : zone_groups(layer)) {
                for (int side = 0; side < (layer.mirror ? 2 : 1); ++side) {
                    const Region pocket =
                        common(zones_region(group.zones, outline, side == 1), where);
                    volume -= area(pocket) * layer_thickness(board, layer);
                }
            }
        }
    }
    return volume;
}

double core_thickness(const Board& board, double x, double y) {
    const Core& core = *board.core;
    return value_at(core.thickness, smooth_slopes(core.thickness), x) +
           (core.cross ? value_at(*core.cross, smooth_slopes(*core.cross), y) : 0.0);
}

double layer_thickness(const Board& board, const Layer& layer) {
    if (layer.kind == LayerKind::material) {
        return layer.thickness;
    }
    double sum = 0;
    const Fabric& fabric = board.fabrics.at(layer.fabric);
    for (const FabricPly& ply : fabric.plies) {
        sum += ply.ply_material.empty() ? ply.areal_weight / board.materials.at(ply.fibre).density /
                                              fabric.fibre_volume_fraction
                                        : ply.ply_thickness;
    }
    return sum;
}

} // namespace vrid
