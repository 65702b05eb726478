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
    std::string material;   ///< name in Board::materials, as every `material` below
    double width = 0;       ///< [m]
    std::optional<Range> x; ///< only there; elsewhere `fill`, or the first strip's material
    std::string fill;       ///< material where `x` ends; empty: the first strip's
};

/// The core: strips side by side, sanded to a thickness by station.
struct Core {
    Profile thickness;               ///< by station [m]
    std::vector<Strip> strips;       ///< of both halves, or of the left one (y > 0)
    std::vector<Strip> strips_right; ///< of the right half; empty: as `strips`
    /// Change of thickness over signed y, added to `thickness`, interpolated linearly [m]
    std::optional<Profile> cross;
    bool resolve = false; ///< every strip border a mesh line instead of smearing
};

/// Replaces the core beyond the two stations x[0] and x[1].
struct TipSpacer {
    std::string material; ///< of the spacer
    Range x{};            ///< rear and front station [m]
};

/// Steel teeth on top of the base, inside the edge.
struct Flange {
    double width = 0;     ///< inwards from the edge [m]
    double thickness = 0; ///< [m]
    double fill = 1;      ///< multiplies moduli and density
};

/// Replaces the base within `width` of the outline.
struct Edge {
    std::string material;         ///< of edge and flange
    double width = 0;             ///< [m]
    std::optional<Range> x;       ///< only there [m]; nothing: all round
    std::optional<Flange> flange; ///< nothing: no teeth
};

/// Replaces the core within `width` of the outline.
struct Sidewall {
    std::string material;   ///< of the sidewall
    double width = 0;       ///< [m]
    std::optional<Range> x; ///< only there [m]; nothing: all round
};

/// Where the feet stand and what they cover.
struct Stance {
    double width = 0;       ///< between the feet's centres [m]
    double setback = 0;     ///< of their middle, towards the tail [m]
    double foot_length = 0; ///< extent of the foot patch along x [m]
    double foot_width = 0;  ///< extent of the foot patch along y [m]
    [[nodiscard]] double front() const { return -setback + width / 2; } ///< station [m]
    [[nodiscard]] double rear() const { return -setback - width / 2; }  ///< station [m]
};

/// Counts in mass, balance point and modes; adds no stiffness.
struct MassOnly {
    double resin = 0;         ///< over the whole planform [kg/m2]
    int inserts_per_foot = 0; ///< a count
    double insert_mass = 0;   ///< each [kg]
};

/// What a number must stay within, in its bench unit.
struct Limit {
    std::optional<double> min; ///< nothing: no lower limit
    std::optional<double> max; ///< nothing: no upper limit
};

/// How much a design value scatters, as a file writes it.
struct ToleranceEntry {
    double value = 0;     ///< one standard deviation: in the unit of its path, or in percent
    bool percent = false; ///< of the nominal value
    std::string source;   ///< of an entry of the material library; empty for one of a board
};

/// The board as the shop describes it, in SI. Plain values; io/ reads it from a board file.
struct Board {
    std::string name;                      ///< for people
    std::string file;                      ///< path as given, for messages
    std::string hash;                      ///< content hash of the file and of the files it names
    Planform planform;                     ///< outline and contact stations
    std::optional<Core> core;              ///< exactly when a layer is the core
    std::optional<TipSpacer> tip_spacer;   ///< needs a core
    std::vector<Layer> layers;             ///< upwards; the first is the base
    std::map<std::string, Fabric> fabrics; ///< all that layers name
    std::map<std::string, Material> materials; ///< all that anything names
    std::optional<Edge> edge;                  ///< along the whole outline, or where its `x` says
    std::optional<Sidewall> sidewall;          ///< needs a core
    std::optional<Stance> stance;              ///< what needs feet is skipped without one
    MassOnly mass_only;                        ///< resin and inserts
    std::optional<Profile> rest_shape; ///< height of the base without load [m]; nothing: flat
    std::optional<Cure> cure;          ///< for the board out of the press
    std::map<std::string, ToleranceEntry> tolerance; ///< by design value path or pattern
    std::map<std::string, Limit> limits;             ///< by number
};

} // namespace vrid
