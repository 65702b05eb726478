#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "io/batch/folder_results.hpp"
#include "io/batch/job.hpp"
#include "io/write/limits.hpp"
#include "io/write/number.hpp"

namespace vrid {

/// A number of a row, named as in [limits]: "mass", "nose-twist".
struct RowNumber {
    std::string name;
    BenchQuantity quantity;
    bool resolved = true; ///< of a strength: its bar is small enough to say a number
};

/// A number against the baseline's.
struct DriftChange {
    std::string name;
    BenchQuantity before, after;
    double percent = 0;    ///< of |before|; of a shape out of the press, of 10 mm or 1 degree
    bool resolved = false; ///< the change is larger than the sum of the two error bars
    bool drift = false;    ///< resolved, and larger than the suite's percentage
};

enum class RowStatus { done, failed, not_run };

/// A row of the summary.
struct Row {
    std::string board, file, variant, key, folder; ///< as Job
    RowStatus status = RowStatus::not_run;
    std::string error;
    std::vector<RowNumber> numbers;
    Verdicts limits;
    std::vector<std::string> no_rest; ///< conditions in which the board found no equilibrium
    std::vector<DriftChange> changes; ///< of all numbers that both runs have
    /// What the variant sets: what, before, after.
    Some<std::vector<std::array<std::string, 3>>> set{};
};
VRID_FIELDS(Row, 0, board, file, variant, key, folder, error, set)
VRID_FIELDS(DriftSpec, 17, baseline, percent)

/// What a batch is to do, as its folder keeps it (batch.json): enough to collect without the suite.
struct BatchPlan {
    Later<int> format{1};
    Later<std::string> program;
    std::string suite;
    std::optional<DriftSpec> drift;
    std::vector<Row> rows; ///< without results
};
VRID_FIELDS(BatchPlan, 0, format, program, suite, drift, rows)

BatchPlan plan_of(const Suite& suite, const std::vector<Job>& jobs);
/// \throws OutputError
void write_plan(const BatchPlan& plan, const std::filesystem::path& folder);
/// \throws InputError when there is none or it is damaged
BatchPlan read_plan(const std::filesystem::path& folder);

/// Numbers and limits from a folder's documents.
void read_result(Row& row, const FolderResults& found);

/// Fills the rows from the finished jobs' folders.
void read_results(std::vector<Row>& rows, const std::filesystem::path& folder);

/// Rows of an earlier run's summary.json; nothing if there is none that can be read.
std::optional<std::vector<Row>> read_baseline(const std::filesystem::path& folder);

/// Holds numbers against those of the baseline's row of the same file and variant.
void find_drift(std::vector<Row>& rows, const std::vector<Row>& baseline, double percent);

/// What find_drift had nothing to hold against, for people: rows that are new or whose row in the
/// baseline has no numbers, and rows of the baseline that are gone. A line each; empty: nothing.
std::string unmatched_text(const std::vector<Row>& rows, const std::vector<Row>& baseline);

std::string status_text(RowStatus status); ///< "done", "failed", "not run"

} // namespace vrid
