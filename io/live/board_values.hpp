#pragma once

#include <string>
#include <vector>

#include "io/design/design_values.hpp"
#include "io/read/read_board.hpp"
#include "io/write/json_parts.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/study.hpp"

namespace vrid {

/// What stands in a board file for a person to change: a number, or the name of a material.
struct FileValue {
    std::string path;        ///< as --set takes it: "edge.x_mm[0]", "layer.ribbon.zone.width_mm"
    std::string key;         ///< as `accepted` and units know it: "edge.x_mm"
    std::string group, part; ///< "layer", "ribbon"; "edge", ""
    std::variant<double, std::string> value; ///< as the file writes it
};

/// Numbers and materials of outline, core strips, zones, edge, sidewall, tip spacer, stance and
/// mass_only, in the file's order. Stations and corners are none.
/// \throws InputError for a syntax error
std::vector<FileValue> file_values(const BoardText& source);

/// The text with some of these set, the rest as it is; what it then says is not judged.
/// \throws InputError for a path that is none of these, and for a text in place of a number
std::string with_file_values(const BoardText& source, const std::vector<Change>& changes);

/// A line that only one of two texts has.
struct ChangedLine {
    std::size_t line = 0; ///< in its own text, from 1
    bool added = false;   ///< stands in the second text; else in the first
    std::string text;     ///< without its end
};

/// What has to go and to come to make the second text of the first: the fewest lines, in the order
/// of the file, what goes before what comes.
std::vector<ChangedLine> changed_lines(const std::string& before, const std::string& after);

/// The design values of a board for a page to show, in the order of the board: "path", "group"
/// ("core", "layer NAME", ...), "part" (what it belongs to), "index", "value" and "unit" as the
/// file writes it, "min", "max" and "accepted" in words, "step" (one workshop step), "scale". Then
/// those that are names: layer.NAME.fabric with "choices". Last the file's own, which have no
/// step.
Json values_json(const NamedBoard& read, const std::vector<FileValue>& of_file);

/// What the page draws: drawing_json with "profile": the core's "x" and "z" every few millimetres
/// and "stations" [x, thickness], and "section" at x [mm] (null where the board has no width).
Json shape_json(const Board& board, double x_mm);

/// Numbers by name: "value", "error", "unit", "shown" and "bar" as tables print them, "slopes"
/// (bench unit per unit of the path, in the order of "paths"), "limit" ("within", "outside",
/// "within the bar", or absent) with "min" and "max".
Json numbers_json(const Board& board, const BoardNumbers& found);

/// What a page paints over the board seen from above: "cells" of [value, x, y, x, y, x, y, x, y],
/// corners in millimetres, with "unit" and "load".
/// Deflection [mm], or with `twist` the twist rate [deg/m], of the study's only case under its
/// written load. \throws InputError for a case that was not run
Json motion_json(const Board& board, const StudyResult& study, bool twist);

/// The derivative of the only number by the core's thickness: bench unit for a millimetre on a
/// square decimetre. No cells for a number that has none.
Json sanding_json(const BoardNumbers& found);

} // namespace vrid
