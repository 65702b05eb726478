#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

namespace vrid {

using Range = std::array<double, 2>; ///< [from, to], from < to [m]

/// Whether a value is in a range, both ends included; without one it always is.
inline bool inside(const std::optional<Range>& range, double value) {
    return !range || (value >= (*range)[0] && value <= (*range)[1]);
}

/// A straight ribbon: its 0 direction runs from `from` to `to`; ends are cut square.
struct Ribbon {
    Eigen::Vector2d from; ///< where its centre line begins [m]
    Eigen::Vector2d to;   ///< where its centre line ends [m]
    double width = 0;     ///< [m]
};

/// Where a layer is. All members empty: everywhere. Several: where all hold.
struct Zone {
    std::optional<Range> x;               ///< stations [m]
    std::optional<Range> y;               ///< across, left positive [m]
    std::optional<Ribbon> ribbon;         ///< on it
    std::optional<Range> outline;         ///< band by distance from the outline [m]
    std::vector<Eigen::Vector2d> polygon; ///< corners in order, either way round; empty: none [m]
};

/// What a layer is made of.
enum class LayerKind {
    material, ///< a sheet of one thickness
    fabric,   ///< plies laid with resin
    core      ///< Board::core
};

/// One layer of the board, from the running surface upwards.
struct Layer {
    std::string name;                     ///< by which design values and results name it
    LayerKind kind = LayerKind::material; ///< says which of the next members count
    std::string material;                 ///< for LayerKind::material
    double thickness = 0;                 ///< for LayerKind::material [m]
    std::string fabric;                   ///< for LayerKind::fabric
    double angle = 0;                     ///< turns the whole layer [rad]
    bool flip = false;                    ///< roll turned over about its 0 direction
    Zone zone;                            ///< where it is laid
    std::vector<Zone> more_zones;         ///< the layer is there too
    bool inlay = false; ///< let into the core: the core is thinner there, the height stays
    /// A second layer directly above this one: zone mirrored in y, every ply angle negated.
    bool mirror = false;
};

} // namespace vrid
