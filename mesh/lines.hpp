#pragma once

#include <string>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "mesh/mesher.hpp"

namespace vrid {

/// How much a mesh line matters: where two lines graze, the one of lower rank gives way. A line is
/// hard from `foot` up: without it a quad straddles a jump, which the user is told.
enum class Rank {
    cut,            ///< made to split a face
    axis,           ///< y = 0
    smooth,         ///< station at which only a second derivative jumps
    wanted_band,    ///< asked for in the options
    foot,           ///< side of a foot patch
    zone,           ///< side of a zone or ribbon, border of a strip
    station,        ///< the section jumps at this x
    wanted_station, ///< contact station, foot end, asked for in the options
    band,           ///< edge, flange, sidewall, zone border parallel to the outline
    outline
};

/// A straight mesh line from a to b; parts outside the board do not count.
struct StraightLine {
    Eigen::Vector2d a, b; ///< [m]
    Rank rank = Rank::zone;
    std::string name; ///< for notes: "station x = 520 mm", "side of zone of 'nose ribbon'"
};

/// A mesh line parallel to the outline.
struct ParallelLine {
    double distance = 0; ///< [m]
    Rank rank = Rank::band;
    std::string name;
};

struct MeshLines {
    std::vector<StraightLine> straight;
    std::vector<ParallelLine> parallels; ///< by rising distance, the outline itself not listed
    std::vector<double> stations;        ///< x of lines right across the board, ends of it included
    bool symmetric = false;              ///< lines and outline are their own mirror image in y
};

/// All lines a mesh of this board must follow. Lines nearer than 0.05 mm to one of higher rank are
/// one with it; soft stations within 3 mm of another are dropped.
MeshLines collect_lines(const Board& board, const MeshOptions& options);

/// Where the outline turns inwards its parallels go round the corner: lines from there to the
/// ends of their arcs (to the middle of a short arc) keep bands four-sided.
void add_corner_fans(const Planform& planform, MeshLines& lines);

/// Whether lines and outline are their own mirror image in y = 0.
bool is_symmetric(const Planform& planform, const MeshLines& lines);

} // namespace vrid
