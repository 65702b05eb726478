#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "io/batch/job.hpp"
#include "io/write/solved_board.hpp"
#include "solver/strength_view.hpp"

namespace vrid {

/// How a job's folder stands.
enum class JobState {
    absent,  ///< never run, or ended before its last file
    failed,  ///< ran into an error
    damaged, ///< its files are not those that were written
    done
};

/// Looks into the folder: reads every file and compares its content hash.
JobState job_state(const std::filesystem::path& folder, const std::string& key);

/// The error of a failed job; empty otherwise.
std::string job_error(const std::filesystem::path& folder, const std::string& key);

/// Writes result.json, stations.csv, lines.csv, drawing.json, of an edge map edge.json and
/// edge.csv, of a strength strength.json, and last job.json, which makes them count. \param view of
/// the strength \throws OutputError
void write_job(const std::filesystem::path& folder, const Job& job, const SolvedBoard& solved,
               const std::optional<StrengthView>& view);
void write_failed_job(const std::filesystem::path& folder, const Job& job,
                      const std::string& error);

} // namespace vrid
