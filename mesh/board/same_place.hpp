#pragma once

namespace vrid {

/// Stations or points of a board nearer than this are one place [m]. Far above the rounding of
/// numbers that mean the same (the last digits of a file in mm, a contour evaluated from either of
/// its pieces: below 1e-9), far below what a shop can draw, cut or measure (0.01 mm). Whoever
/// merges stations, corners or borders, or asks whether a station is on the board, goes by it.
constexpr double same_place = 1e-6;

/// Mesh lines nearer than this become one line [m]: they are two places, but a quad between them
/// would be a sliver. Sections are taken at true positions, so that nothing but the mesh is moved.
constexpr double same_line = 50 * same_place;

} // namespace vrid
