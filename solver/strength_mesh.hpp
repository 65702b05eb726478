#pragma once

#include "solver/strength_study.hpp"

namespace vrid {

/// The study under a strength: its static cases, models kept. \throws InputError if none is left
StudyOptions strength_study_options(const Board& board, const StrengthOptions& options);

/// \throws InputError where a board without [cure] is to be cooled. \param cooled as
/// StrengthOptions
void check_cooled(const Board& board, const std::string& cooled);

/// With lines one disc's diameter from the feet and from the outline beside them.
MeshOptions finer_at_clamps(const Board& board, MeshOptions mesh);

} // namespace vrid
