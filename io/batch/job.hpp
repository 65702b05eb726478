#pragma once

#include <memory>
#include <string>
#include <vector>

#include "io/batch/suite.hpp"
#include "io/materials/material_library.hpp"
#include "io/report/report.hpp"
#include "io/report/variant_change.hpp"
#include "mesh/board/board.hpp"
#include "mesh/board/error.hpp"
#include "mesh/mesher.hpp"
#include "solver/study.hpp"

namespace vrid {

/// One board, one variant: a row of the summary. Its key is a content hash of the board as
/// resolved, the cases, the settings and the numerics version.
struct Job {
    std::string board;                  ///< name; the file's path if it could not be read
    std::string file;                   ///< relative to the suite's folder
    std::string variant;                ///< empty: as drawn
    std::string key;                    ///< 32 hexadecimal digits
    std::string folder;                 ///< in the batch's folder, "jobs/NAME-0123456789abcdef"
    std::string error;                  ///< the board or the variant is wrong; empty: it can be run
    Board resolved;                     ///< changes made; empty after an error
    std::string mesh;                   ///< jobs with the same text here share their meshes
    bool on_edge = false;               ///< the suite has an edge map and the board feet for it
    bool with_strength = false;         ///< the suite wants it, or a limit is named after it
    std::shared_ptr<const Board> drawn; ///< the board as drawn, whose mesh is taken
    std::vector<VariantChange> changes{}; ///< what the variant sets
    std::vector<Problem> warnings{};      ///< of the board file with the changes made
};

/// All jobs of a suite in the order of its summary: boards sorted by path, variants as listed.
/// A board that cannot be read is one job with its error. \param strict warnings are errors
std::vector<Job> plan_jobs(const Suite& suite, const StudyOptions& options,
                           const MaterialLibrary& library, bool strict = false);

/// What a variant sets, with what the board as drawn has there.
std::vector<VariantChange> value_changes(const Board& drawn, const Variant& variant);

/// Layers whose laminate, thickness or place differ, and those that only one board has.
std::vector<VariantChange> layup_changes(const std::vector<LaidLayer>& drawn,
                                         const std::vector<LaidLayer>& variant);

/// Counts up when the same input may give other numbers or verdicts: results of an older one are
/// not reused.
inline constexpr int numerics_version = 9;

/// Everything of a board that its numbers depend on, whatever file, library or CSV it came from,
/// as JSON with numbers in full. Equal texts: equal results.
std::string resolved_text(const Board& board);

/// Everything that its mesh depends on: equal texts, equal meshes.
std::string mesh_text(const Board& board, const MeshOptions& options);

} // namespace vrid
