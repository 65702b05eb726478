#pragma once

#include <string>

#include "solver/response/result.hpp"

namespace vrid {

/// "centre-flex at 60 mm", "stance-twist bent 60 mm"; of another number than the stiffness
/// "centre-flex at 60 mm.force".
std::string bent_name(const BentCase& bent, const std::string& number = "stiffness");
/// The same of a case that was not reached.
std::string bent_name(const BentMiss& miss);

/// One row a number; empty without bent cases.
std::string bent_text(const StudyResult& study);
/// One row a case and travel: what `--bend` adds to a folder as bend.csv.
std::string bend_csv(const StudyResult& study);

} // namespace vrid
