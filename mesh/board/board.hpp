#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "mesh/board/cure.hpp"
#include "mesh/board/layup.hpp"
#include "mesh/board/material.hpp"
#include "mesh/board/planform.hpp"
#include "mesh/board/profile.hpp"

namespace vrid {

/// One core strip, from the centre line outwards, repeated to both sides.
struct Strip {
    std::string material;
    double width = 0;       ///< [m]
    std::optional<Range> x; ///< only there; elsewhere `fill`, or the first strip's material
    std::string fill;       ///< material where `x` ends; empty: the first strip's
};

struct Core {
    Profile thickness;
    std::vector<Strip> strips;       ///< of both halves, or of the left one (y > 0)
    std::vector<Strip> strips_right; ///< of the right half; empty: as `strips`
    /// Change of thickness over signed y, added to `thickness`, interpolated linearly [m]
    std::optional<Profile> cross;
    bool resolve = false; ///< every strip border a mesh line instead of smearing
};

/// Replaces the core beyond the two stations x[0] and x[1].
struct TipSpacer {
    std::string material;
    Range x{};
};

/// Steel teeth on top of the base, inside the edge.
struct Flange {
    double width = 0, thickness = 0; ///< [m]
    double fill = 1;                 ///< multiplies moduli and density
};

/// Replaces the base within `width` of the outline.
struct Edge {
    std::string material;
    double width = 0;
    std::optional<Range> x;
    std::optional<Flange> flange;
};

/// Replaces the core within `width` of the outline.
struct Sidewall {
    std::string material;
    double width = 0;
    std::optional<Range> x;
};

struct Stance {
    double width = 0, setback = 0;          ///< [m]
    double foot_length = 0, foot_width = 0; ///< extent of the foot patch along x, along y [m]
    [[nodiscard]] double front() const { return -setback + width / 2; } ///< station [m]
    [[nodiscard]] double rear() const { return -setback - width / 2; }
};

/// Counts in mass, balance point and modes; adds no stiffness.
struct MassOnly {
    double resin = 0; ///< over the whole planform [kg/m2]
    int inserts_per_foot = 0;
    double insert_mass = 0; ///< each [kg]
};

/// What a number must stay within, in its bench unit.
struct Limit {
    std::optional<double> min, max;
};

/// How much a design value scatters, as a file writes it.
struct ToleranceEntry {
    double value = 0;     ///< one standard deviation: in the unit of its path, or in percent
    bool percent = false; ///< of the nominal value
    std::string source;   ///< of an entry of the material library; empty for one of a board
};

/// The board as the shop describes it, in SI. Plain values; io/ reads it from a board file.
struct Board {
    std::string name;
    std::string file; ///< path as given, for messages
    std::string hash; ///< content hash of the file and of the files it names
    Planform planform;
    std::optional<Core> core; ///< exactly when a layer is the core
    std::optional<TipSpacer> tip_spacer;
    std::vector<Layer> layers;                 ///< upwards; the first is the base
    std::map<std::string, Fabric> fabrics;     ///< all that layers name
    std::map<std::string, Material> materials; ///< all that anything names
    std::optional<Edge> edge;
    std::optional<Sidewall> sidewall;
    std::optional<Stance> stance;
    MassOnly mass_only;
    std::optional<Profile> rest_shape;
    std::optional<Cure> cure;
    std::map<std::string, ToleranceEntry> tolerance; ///< by design value path or pattern
    std::map<std::string, Limit> limits;             ///< by number
};

} // namespace vrid
