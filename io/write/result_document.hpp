#pragma once

#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"
#include "io/write/limits.hpp"

namespace vrid {

// Of a board out of the press.

struct AxisPoint {
    Finite x_mm, rise_mm;
};
VRID_FIELDS(AxisPoint, 10, x_mm, rise_mm)

struct AcrossPoint {
    Finite y_mm, rise_mm;
};
VRID_FIELDS(AcrossPoint, 10, y_mm, rise_mm)

struct FoundAcross {
    Finite x_mm;
    std::vector<AcrossPoint> points;
};
VRID_FIELDS(FoundAcross, 10, x_mm, points)

struct FoundHollow {
    Finite x_mm;
    Measured hollow;
};
VRID_FIELDS(FoundHollow, 10, x_mm, hollow)

/// What a layer does to camber, hollow [mm] and twist [deg].
struct LayerShare {
    std::string layer;
    Finite camber, concavity, twist;
};
VRID_FIELDS(LayerShare, 10, layer, camber, concavity, twist)

/// A point of the mould's line; with the mould that exists, if there is one.
struct FoundMould {
    Finite x_mm, wanted_mm, change_mm, mould_mm;
    std::optional<Finite> existing_mould_mm{};
};
VRID_FIELDS(FoundMould, 10, x_mm, wanted_mm, change_mm, mould_mm, existing_mould_mm)

/// A case's numbers, "stiffness", "mode 1"; of a cooled one its shape.
struct FoundCase {
    Numbers numbers;
    Some<std::vector<FoundHollow>> concavity;
    std::optional<std::vector<LayerShare>> by_layer; ///< upwards; only a cooled case has them
    Some<std::vector<AxisPoint>> axis;
    Some<std::vector<FoundAcross>> across;
    std::optional<Json> stretch;
};
VRID_FIELDS(FoundCase, 0, numbers, concavity, by_layer, axis, across, stretch)

struct SolverEntry {
    Later<double> residual; ///< only its size says something
    Later<bool> rel_error_met;
};
VRID_FIELDS(SolverEntry, 2, residual, rel_error_met)

/// The document result.json.
struct FoundResult {
    int format = 1;
    Later<std::string> program;
    BoardEntry board;
    Later<Json> outline;
    BenchQuantity mass;
    Later<Json> balance_point;
    Later<std::string> shape; ///< "rest", "flat"
    Named<FoundCase> cases;
    Some<std::vector<FoundMould>> mould;
    std::optional<BenchQuantity> mould_camber;
    Some<Named<BenchQuantity>> pressed;
    Some<std::vector<double>> bend_mm;
    Named<std::string> skipped; ///< case, why
    Verdicts limits;
    MeshEntry mesh;
    SolverEntry solver;
    std::vector<std::string> warnings;
    Later<std::vector<std::string>> files;
    Later<std::string> caution{vrid::caution};
    Named<Finite> seconds; ///< by phase
};
VRID_FIELDS(FoundResult, 12, format, program, board, outline, mass, balance_point, shape, cases,
            mould, mould_camber, pressed, bend_mm, skipped, limits, mesh, solver, warnings, files,
            caution, seconds)

} // namespace vrid
