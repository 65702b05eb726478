#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "mesh/board/board.hpp"

namespace vrid {

/// The members of Board.
enum class PartOfBoard {
    planform,
    core,
    layer,
    fabric,
    material,
    tip_spacer,
    edge,
    sidewall,
    stance,
    mass_only,
    rest_shape,
    cure,
    tolerance,
    limit
};

/// A value of a Board, as a C++ program reaches it: layer "patch", zone 1, field "x".
struct BoardPlace {
    PartOfBoard part = PartOfBoard::planform;
    std::string name{};       ///< of a layer, fabric, material, tolerance or limit
    int number = -1;          ///< of a layer
    std::string_view list{};  ///< a list or struct in the part: "strips", "zone", "plies", "flange"
    int item = -1;            ///< in the list
    std::string_view field{}; ///< "width"; of a material the key, "nu12"; empty: the part itself
    int entry = -1;           ///< a station of a profile, a corner of a polygon
};

/// What can be wrong with a board. `found`, `told` are those of BoardFault.
enum class Fault {
    not_finite,         ///< a number is nan or infinite
    not_positive,       ///< found must be above 0
    negative,           ///< found must be 0 or above
    no_share,           ///< found must be above 0 and at most 1
    unknown_name,       ///< the board has no material or fabric of this name
    empty,              ///< a list, a name or a profile has nothing in it
    uneven,             ///< a profile has found stations and told values
    not_rising,         ///< told: the station, the one before
    no_order,           ///< found: a range whose first end is not below its second
    off_board,          ///< found: a range of stations that does not reach the board
    open_outline,       ///< the pieces do not join, or do not run counter-clockwise
    contact_off_board,  ///< told: tail and nose tip
    narrow_contact,     ///< told: width there, station
    long_board,         ///< told: the most
    idle_core,          ///< a core without a layer of the core
    no_core_layer,      ///< a tip spacer or sidewall without one
    no_core,            ///< the layer of the core without a core
    name_twice,         ///< of two layers
    second_core_layer,  ///< only one can be
    fill_everywhere,    ///< a strip with a fill, but without an end
    mirror_everywhere,  ///< a layer without a zone has no mirror image
    mirror_whole,       ///< the layer is its own mirror image
    mirror_overlap,     ///< told: area
    mirror_crossing,    ///< two ribbons cross; told: area. A warning
    mirror_core,        ///< the core is there once
    inlay_core,         ///< the core is what a layer is let into
    inlay_without_core, ///< no layer of the core
    short_ribbon,       ///< it has no direction
    few_corners,        ///< of a polygon; told: how many
    crossing_sides,     ///< of a polygon, from this corner
    misses_board,       ///< a zone
    wide_band,          ///< edge with flange, or sidewall; told: the most
    feet_overlap,       ///< a stance as short as the feet; told: their length
    front_foot_off,     ///< its patch is not on the board
    rear_foot_off,
    wide_foot, ///< a patch as wide as the board at the foot; told: the most
    inserts_without_mass,
    inserts_without_stance,
    steep_surface,     ///< told: rise by length, station
    folded_surface,    ///< told: station, change of slope there, the most
    large_contraction, ///< |nu12|; told: sqrt(E1 / E2), which it must stay below
    no_ratio,          ///< of an isotropic material: not above -1 and below 0.5
    not_isotropic,     ///< E2, G12, G13 or G23 is not what E and nu give
    lends_no_strength, ///< the ply named by strengths_of
    curved_cross,      ///< across the board a core's thickness changes along straight lines
    limits_cross       ///< found: max, below min
};

struct BoardFault {
    BoardPlace at;
    Fault what = Fault::not_finite;
    std::vector<double> found{}; ///< the value or both values at this place [SI]
    std::vector<double> told{};  ///< numbers that belong to the fault [SI]
    std::string text{};          ///< a name found at this place
};

/// Notes the faults of one part of a board; values that are not finite cause no second fault.
class PartCheck {
  public:
    PartCheck(std::vector<BoardFault>& faults, BoardPlace at)
        : faults_(&faults), at_(std::move(at)) {}

    /// The same for an item of a list in the part.
    [[nodiscard]] PartCheck in(std::string_view list, int item = -1) const;

    void note(Fault what, std::string_view field, std::vector<double> found = {},
              std::vector<double> told = {}, int entry = -1);
    /// True when the value is finite; else notes the fault.
    bool finite(std::string_view field, double value, int entry = -1);
    /// True when all are: of the same field.
    bool finite(std::string_view field, const Eigen::Vector2d& value, int entry = -1);
    bool positive(std::string_view field, double value, int entry = -1);
    bool not_negative(std::string_view field, double value);
    bool share(std::string_view field, double value); ///< above 0 and at most 1
    /// True when the range is absent or finite and in order.
    bool range(std::string_view field, const std::optional<Range>& range);
    /// True when there are stations, all finite and rising strictly.
    bool profile(std::string_view field, const Profile& profile);
    template <class Entry>
    bool known(std::string_view field, const std::string& name,
               const std::map<std::string, Entry>& entries) {
        if (entries.contains(name)) {
            return true;
        }
        note(name.empty() ? Fault::empty : Fault::unknown_name, field);
        faults_->back().text = name;
        return false;
    }

  private:
    std::vector<BoardFault>* faults_;
    BoardPlace at_;
};

} // namespace vrid
