#include "io/batch/job_files.hpp"
#include "io/batch/file_bytes.hpp"

#include <nlohmann/json.hpp>

#include "io/read/content_hash.hpp"
#include "io/write/drawing.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/result_json.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/stations_csv.hpp"
#include "io/write/strength_report.hpp"
#include "solver/strength_view.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

Json head(const Job& job, const std::string& status) {
    Json all;
    all["format"] = 1;
    all["key"] = job.key;
    all["board"] = job.board;
    all["variant"] = job.variant;
    all["status"] = status;
    return all;
}

/// The record if it is one of this job; else null.
Json record_of(const fs::path& folder, const std::string& key) {
    Json record = parsed(folder / "job.json");
    const bool whole = record.is_object() && record.contains("key") && record["key"].is_string() &&
                       record.contains("status") && record["status"].is_string();
    return whole && record["key"] == key ? record : Json();
}

bool files_are_whole(const fs::path& folder, const Json& record) {
    if (!record.contains("files") || !record["files"].is_object()) {
        return false;
    }
    for (const auto& [name, hash] : record["files"].items()) {
        const fs::path path = folder / fs::path(name).filename();
        if (!hash.is_string() || content_hash({file_bytes(path)}) != hash.get<std::string>()) {
            return false;
        }
    }
    return !record["files"].empty();
}

} // namespace

JobState job_state(const fs::path& folder, const std::string& key) {
    std::error_code error;
    if (!fs::exists(folder / "job.json", error)) {
        return JobState::absent;
    }
    const Json record = record_of(folder, key);
    if (record.is_null()) {
        return JobState::damaged;
    }
    if (record["status"] == "failed") {
        return JobState::failed;
    }
    return files_are_whole(folder, record) ? JobState::done : JobState::damaged;
}

std::string job_error(const fs::path& folder, const std::string& key) {
    const Json record = record_of(folder, key);
    return record.is_object() && record["status"] == "failed" ? record.value("error", "") : "";
}

void write_job(const fs::path& folder, const Job& job, const SolvedBoard& solved,
               const std::optional<StrengthView>& view) {
    std::vector<std::pair<std::string, std::string>> files{
        {"stations.csv", stations_csv(solved)},
        {"lines.csv", lines_csv(solved)},
        {"drawing.json", drawing_json(solved.board)}};
    if (solved.edge) {
        files.emplace_back("edge.csv", edge_csv(solved.edge->result));
        files.emplace_back("edge.json", edge_json(*solved.edge, nullptr));
    }
    if (solved.strength) {
        files.emplace_back("strength.json", strength_json({solved.board, *solved.strength},
                                                          view.value_or(StrengthView{})));
    }
    std::vector<std::string> names;
    for (const auto& [name, bytes] : files) {
        names.push_back(name);
    }
    names.emplace_back("result.json");
    files.emplace_back("result.json", result_json(solved, names, 0));
    StagedFiles staged(folder);
    Json record = head(job, "done");
    for (const auto& [name, bytes] : files) {
        staged.add(name, bytes);
        record["files"][name] = content_hash({bytes});
    }
    staged.add("job.json", json_text(record));
    staged.publish();
}

void write_failed_job(const fs::path& folder, const Job& job, const std::string& error) {
    Json record = head(job, "failed");
    record["error"] = error;
    write_file(folder / "job.json", json_text(record));
}

} // namespace vrid
