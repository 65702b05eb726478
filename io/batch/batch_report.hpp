#pragma once

#include <filesystem>
#include <string>

#include "io/batch/row.hpp"

namespace vrid {

/// report.html over a batch: the plan's rows with their results, and the finished jobs' folders.
std::string batch_report(const BatchPlan& plan, const std::filesystem::path& folder);

/// report.html of one folder: a batch's (batch.json), or what other verbs left there, alone or
/// together: result.json, edge.json; sense.json, scatter.json, calibration.json,
/// lot.json, family.json.
/// \throws InputError when it has none of them, or its files are damaged
std::string folder_report(const std::filesystem::path& folder);

} // namespace vrid
