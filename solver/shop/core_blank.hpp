#pragma once

#include <optional>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/shop/board_regions.hpp"

namespace vrid {

/// One line of the sanding table.
struct SandingRow {
    double x = 0;         ///< from the middle of the running length [m]
    double from_end = 0;  ///< from the tail end of the core blank [m]
    double thickness = 0; ///< on the centre line [m]
    double slope = 0;     ///< of the thickness towards the nose; mean of both sides at a kink [-]
    bool station = false; ///< one of the board file's, not of the step
};

/// Wood strips of the core that are alike.
struct StripCut {
    std::string material, fill; ///< `fill`: of the strip's rest beyond `x`; empty: none
    std::optional<Range> x;     ///< where the material is, if not all along [m]
    int count = 0;
    double width = 0;  ///< as the board file has it [m]
    double length = 0; ///< of the longest [m]
};

struct CoreBlank {
    Extent size;         ///< where it lies on the board
    double thickest = 0; ///< [m]
    std::vector<SandingRow> sanding;
    std::vector<StripCut> strips;
};

/// The core without sidewall and spacers: nothing without a core.
/// \param step of the sanding table [m]
std::optional<CoreBlank> core_blank(const Board& board, const std::vector<BoardPart>& parts,
                                    double step);

/// A run of the metal edge along the outline, measured on the outside.
struct EdgeRun {
    double from_x = 0, to_x = 0; ///< stations of its ends; equal when it is closed [m]
    double length = 0;           ///< [m]
    double turn = 0;             ///< all bends together [rad]
    double tightest = 0;         ///< radius of the tightest bend; infinite if straight [m]
    double tightest_x = 0;       ///< where [m]
    int corners = 0;             ///< sharp ones, where an edge must be cut and mitred
};

/// Both sides' runs, or one that is closed; empty without an edge.
std::vector<EdgeRun> edge_runs(const Board& board);

} // namespace vrid
