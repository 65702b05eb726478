#pragma once

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/mesher.hpp"
#include "solver/response/result.hpp"
#include "solver/system/elimination.hpp"

namespace vrid {

/// What boards with the same lines share: a mesh and, at both degrees, the order of elimination.
struct PreparedStudy {
    Mesh mesh;
    int degree = 0;
    std::array<EliminationTree, 2> trees; ///< at degree - 1 (or 1) and at degree
    int unknowns = 0;                     ///< at degree
};

struct StudyOptions {
    std::vector<std::string> cases;  ///< names in the case table; empty: all that the board allows
    int degree = 0;                  ///< 1..6; 0: the default
    double max_size = 0;             ///< longest quad side [m]; 0: the default
    std::optional<double> rel_error; ///< refine until every bar / value is below this
    int threads = 0;                 ///< 0: as many as cores
    bool keep_models = false;        ///< for derivatives: StudyResult::solved
    /// From prepare_study for a board that differs in its section only: its mesh is taken instead
    /// of an own one (which would follow the free-edge layer of its own section). Null: none.
    std::shared_ptr<const PreparedStudy> prepared;
    std::shared_ptr<MemoryStock> memory; ///< for factors, used again by the next; null: none
    /// Told at the start of every phase ("mesh", "sections", ...) with the share done, 0..1. May
    /// throw to cancel.
    std::function<void(const std::string& phase, double share)> progress;
};

/// The part of a study that does not depend on the section's values. \throws as run_study
PreparedStudy prepare_study(const Board& board, const StudyOptions& options);

/// What the mesher is asked for: equal requests on equal outlines and borders give equal meshes.
MeshOptions study_mesh_options(const Board& board, const StudyOptions& options);

/// Names of the bench cases that the board allows.
std::vector<std::string> possible_cases(const Board& board);

/// Runs the cases on the board. \throws InputError for a named case the board cannot have (an
/// unknown name too), SolveError when it cannot be computed.
StudyResult run_study(const Board& board, const StudyOptions& options);

} // namespace vrid
