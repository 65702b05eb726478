#pragma once

#include <array>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/board/drawn_outline.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/rest_shape.hpp"
#include "solver/laminate/layup.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/mass.hpp"
#include "solver/response/quantity.hpp"

namespace vrid {

/// A layer at one station and the parts of the width where it lies.
struct LayerAcross {
    std::string name, material; ///< as solver/laminate/stack.hpp names them
    double angle = 0;           ///< [rad]
    double thickness = 0;       ///< [m]
    std::vector<Range> y;       ///< from right (-y) to left, touching parts joined [m]
    bool everywhere = false;    ///< over the whole width
};

/// All layers met across the board at station x, upwards. A name that has two thicknesses or angles
/// over the width (a mirrored ribbon at an angle) is listed once for each.
/// \throws InputError if the board has no width at x
std::vector<LayerAcross> layers_across(const Layup<double>& layup, double x);

/// "all", "|y| < 123.1", "|y| 45 to 75" where symmetric, else "-75 to -45" [mm].
std::string text_of_width(const LayerAcross& layer);

/// What the outline is, in SI.
struct OutlineFigures {
    double length = 0, running_length = 0; ///< [m]
    double tail_width = 0, waist_width = 0,
           nose_width = 0; ///< at contact stations and narrowest [m]
    double waist_x = 0;    ///< where the board is narrowest [m]
    /// Of {left, right} edges with contact stations of their own {tail, nose} [m].
    std::array<std::optional<std::array<double, 2>>, 2> edge_contact{};
    std::array<double, 2> sidecut_radius{}; ///< left (+y), right [m]; infinite if straight
    double area = 0;                        ///< [m2]
    std::optional<DrawnFit> drawn{};        ///< when the outline is given by points
};

/// One station of interest.
struct StationFigures {
    std::string label; ///< "rear foot"; empty for a station the user named
    CrossSection section;
    std::vector<LayerAcross> layers; ///< upwards
};

/// What the rest shape is like.
struct RestFigures {
    Tightest radius;                       ///< [m]
    double tail_place = 0, nose_place = 0; ///< of the tips along the floor, from x = 0 [m]
    double tail_shorter = 0,
           nose_shorter = 0; ///< by how much each is nearer than on the blank [m]
};

/// All that `vrid check` shows of a board; needs no finite-element mesh.
struct BoardFigures {
    std::string name, hash;
    OutlineFigures outline;
    MassReport mass;
    std::vector<StationFigures> stations; ///< as asked, or by rising x
    std::optional<RestFigures> rest{};    ///< of a board whose rest shape is not level
    std::vector<Problem> warnings{};      ///< of the board file; board_figures leaves it empty
    std::vector<std::string> set{};       ///< values set without a file, likewise
};

OutlineFigures outline_figures(const Board& board);

/// `at`: stations [m]; empty: contact stations, feet (if any) and waist.
/// \throws InputError for a station where the board has no width
BoardFigures board_figures(const Board& board, const std::vector<double>& at);

} // namespace vrid
