#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/write/fields.hpp"
#include "mesh/board/board.hpp"

namespace vrid {

/// A layer in a cross-section.
struct DrawnLayer {
    std::string name, material;
    double angle = 0;            ///< [deg]
    std::pair<double, double> z; ///< bottom, top [mm]
};
VRID_FIELDS(DrawnLayer, 17, name, material, angle, z)
void check_part(const DrawnLayer& layer);

/// A part of the width with one stack.
struct DrawnPart {
    std::pair<double, double> y;    ///< from, to [mm]
    std::vector<DrawnLayer> layers; ///< upwards
};
VRID_FIELDS(DrawnPart, 17, y, layers)

struct DrawnSection {
    std::string label;
    double x = 0;                 ///< [mm]
    std::vector<DrawnPart> parts; ///< from right to left
};
VRID_FIELDS(DrawnSection, 17, label, x, parts)
void check_part(const DrawnSection& section);

/// Where a layer lies: an area, or a band by distance from the outline. [mm]
struct DrawnZone {
    std::string layer;
    std::string kind;                                      ///< "area", "band"
    Some<std::vector<std::pair<double, double>>> points{}; ///< of an area
    std::optional<double> from{}, to{};                    ///< of a band
    std::optional<std::pair<double, double>> x{};          ///< of a band
};
VRID_FIELDS(DrawnZone, 17, layer, kind, points, from, to, x)
void check_part(const DrawnZone& zone);

/// A ply as it lies in the board.
struct LaidPly {
    std::string of;
    double angle_deg = 0;
    std::optional<double> gsm{}; ///< fibre weight
    std::optional<double> mm{};  ///< instead the thickness of a measured ply
};
VRID_FIELDS(LaidPly, 17, of, angle_deg, gsm, mm)
void check_part(const LaidPly& ply);

/// A row of the layup table, upwards; of the edge and the sidewall, too.
struct LaidLayer {
    std::string layer, of, where;
    OrNull<double> thickness_mm{}; ///< not of the core
    std::vector<LaidPly> plies{};  ///< upwards
    Some<std::string> resin{};
    std::optional<double> resin_gsm{};
};
VRID_FIELDS(LaidLayer, 17, layer, of, where, thickness_mm, plies, resin, resin_gsm)

/// What a picture of a board needs without its file: drawing.json, in millimetres.
struct Drawing {
    Later<int> format{1};
    Later<std::string> name;
    std::vector<std::pair<double, double>> outline; ///< a closed loop
    std::vector<double> contact;                    ///< two stations
    std::vector<std::vector<double>> feet;          ///< x0 y0 x1 y1, rear and front
    std::vector<DrawnZone> zones;
    std::vector<DrawnSection> sections;  ///< rear foot, middle, front foot, or between the contacts
    Later<std::vector<LaidLayer>> layup; ///< empty in results of earlier versions
    /// Of "left" and "right", where an edge has its own.
    Some<Named<std::vector<double>>> edge_contact;
    [[nodiscard]] const std::vector<double>& contact_of(const std::string& side) const;
};
VRID_FIELDS(Drawing, 17, format, name, outline, contact, feet, zones, sections, layup, edge_contact)

/// The amount with its unit, which a weight in a table does without: "340", "0.16 mm".
std::string amount_text(const LaidPly& ply);

Drawing drawing_of(const Board& board);

/// The outline alone.
std::vector<std::pair<double, double>> drawn_outline(const Planform& planform);

/// The cross-section at any station [m]. \throws InputError where the board has no width
DrawnSection drawn_section(const Board& board, const std::string& label, double x);

/// The layers as they are laid up, upwards; then the edge, sidewall and tip spacers, if any.
std::vector<LaidLayer> laid_layers(const Board& board);

/// \param file names it in errors \throws InputError, or the JSON library's own type, when it is
/// damaged
Drawing drawing_in(const Json& json, const std::string& file);

/// The file of a board.
std::string drawing_json(const Board& board);

} // namespace vrid
