#pragma once

#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/mesher.hpp"
#include "solver/prepared.hpp"
#include "solver/response/result.hpp"

namespace vrid {

/// What to run, and how.
struct StudyOptions : Settings {
    std::vector<std::string> cases =
        {};                   ///< names in the case table; empty: all that the board allows
    bool keep_models = false; ///< for derivatives: StudyResult::solved
    /// The mesh to run on, instead of an own one (which would follow the free-edge layer of the
    /// board's own section). Only passes that refine for rel_error leave it. Null: none.
    SharedPrepared prepared = nullptr;
    /// Stations between the contact stations at which to tell the cooled board's hollow, besides
    /// those that are told anyway [m].
    std::vector<double> concavity = {};
    /// Names of bent numbers to tell what they owe to the section: BentCase::weights.
    std::vector<std::string> bent_weights = {};
    /// Travels that the board cannot be bent to are told in StudyResult::not_bent, not thrown.
    bool bend_as_far = false;
};

/// The part of a study that does not depend on the section's values. \throws as run_study
SharedPrepared prepare_study(const Board& board, const StudyOptions& options);

/// What the mesher is asked for: equal requests on equal outlines and borders give equal meshes.
MeshOptions study_mesh_options(const Board& board, const StudyOptions& options);

/// Names of the bench cases that the board allows.
std::vector<std::string> possible_cases(const Board& board);

/// Runs the cases on the board. The mesh of the last pass comes back in StudyResult::prepared.
/// \throws InputError for a named case the board cannot have (an
/// unknown name too), SolveError when it cannot be computed, std::logic_error for a mesh that was
/// prepared for something else.
StudyResult run_study(const Board& board, const StudyOptions& options);

} // namespace vrid
