#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "io/batch/row.hpp"

namespace vrid {

/// One line a row: board, file, variant, key, status, error; every number and its error bar, unit
/// in the title; the names of exceeded limits, of numbers that drifted and of conditions on the
/// edge without equilibrium. No timings: the same results give the same bytes. Comma, point, "\n";
/// texts quoted where needed.
std::string summary_csv(const std::vector<Row>& rows);

/// {"format": 1, "program", "suite", "rows": [{"board", "file", "variant", "key", "folder",
/// "status", "error", "numbers", "limits", "changes",
/// "no_equilibrium"}]}; quantities as in result.json.
std::string summary_json(const std::string& suite, const std::vector<Row>& rows);

/// For an 80-column terminal: what failed, limits exceeded, what moved against the baseline.
std::string summary_text(const std::vector<Row>& rows);

/// What a reader knows a row's board by: its name; of several boards of one name the files, too.
std::string board_title(const Row& row, const std::vector<Row>& rows);

bool any_failed(const std::vector<Row>& rows); ///< or not run
bool any_exceeded(const std::vector<Row>& rows);
bool any_without_rest(const std::vector<Row>& rows); ///< a condition without equilibrium
bool any_drift(const std::vector<Row>& rows);

/// report.html over a batch: the plan's rows with their results, and the finished jobs' folders.
std::string batch_report(const BatchPlan& plan, const std::filesystem::path& folder);

/// report.html of one folder: a batch's (batch.json), or what other verbs left there, alone or
/// together: result.json, edge.json; sense.json, scatter.json, calibration.json,
/// lot.json, family.json.
/// \throws InputError when it has none of them, or its files are damaged
std::string folder_report(const std::filesystem::path& folder);

} // namespace vrid
