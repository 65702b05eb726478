#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "mesh/board/board.hpp"

namespace vrid {

/// A layer in a cross-section.
struct DrawnLayer {
    std::string name, material;
    double angle = 0;           ///< [deg]
    double bottom = 0, top = 0; ///< [mm]
};

/// A part of the width with one stack.
struct DrawnPart {
    double from = 0, to = 0;        ///< y [mm]
    std::vector<DrawnLayer> layers; ///< upwards
};

struct DrawnSection {
    std::string label;
    double x = 0;                 ///< [mm]
    std::vector<DrawnPart> parts; ///< from right to left
};

/// Where a layer lies: an area, or a band by distance from the outline.
struct DrawnZone {
    std::string layer;
    std::vector<std::pair<double, double>> points; ///< [mm]; empty: a band
    double from = 0, to = 0;                       ///< of a band [mm]
    double x_from = 0, x_to = 0;                   ///< of a band [mm]
};

/// A ply as it lies in the board.
struct LaidPly {
    std::string of;
    double angle = 0;  ///< [deg]
    double amount = 0; ///< fibre weight [g/m2], or the thickness of a measured ply [mm]
    bool weighed = true;
};

/// A row of the layup table, upwards; of the edge and the sidewall, too.
struct LaidLayer {
    std::string name, of, where;
    std::optional<double> thickness; ///< [mm]; not of the core
    std::vector<LaidPly> plies;      ///< upwards
    std::string resin;
    double resin_weight = 0; ///< [g/m2]
};

/// What a picture of a board needs without its file: what drawing.json holds (drawing_json.hpp).
struct Drawing {
    std::string name;
    std::vector<std::pair<double, double>> outline; ///< a closed loop [mm]
    std::vector<double> contact;                    ///< two stations [mm]
    std::vector<std::vector<double>> feet;          ///< x0 y0 x1 y1, rear and front [mm]
    std::vector<DrawnZone> zones;
    std::vector<DrawnSection> sections; ///< rear foot, middle, front foot, or between the contacts
    std::vector<LaidLayer> layup{};     ///< empty in results of earlier versions
    std::map<std::string, std::vector<double>> edge_contact{}; ///< contact of "left" and "right"
};

/// The amount with its unit, which a weight in a table does without: "340", "0.16 mm".
std::string amount_text(const LaidPly& ply);

Drawing drawing_of(const Board& board);

/// The outline alone.
std::vector<std::pair<double, double>> drawn_outline(const Planform& planform);

/// The cross-section at any station [m]. \throws InputError where the board has no width
DrawnSection drawn_section(const Board& board, const std::string& label, double x);

/// The layers as they are laid up, upwards; then the edge, sidewall and tip spacers, if any.
std::vector<LaidLayer> laid_layers(const Board& board);

} // namespace vrid
