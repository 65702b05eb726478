#pragma once

#include <filesystem>
#include <string>

#include "io/batch/row.hpp"

namespace vrid {

/// report.html over a batch: the plan's rows with their results, and the finished jobs' folders.
std::string batch_report(const BatchPlan& plan, const std::filesystem::path& folder);

/// report.html of one folder: a batch's (summary.json) or a solve's (result.json).
/// \throws InputError when it is neither, or its files are damaged
std::string folder_report(const std::filesystem::path& folder);

} // namespace vrid
