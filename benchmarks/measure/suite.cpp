#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <nlohmann/json.hpp>

#include "benchmarks/measure/parts.hpp"
#include "benchmarks/measure/runs.hpp"
#include "io/batch/batch_run.hpp"
#include "io/batch/job_files.hpp"
#include "io/batch/row.hpp"

namespace vrid::measure {

namespace {

namespace fs = std::filesystem;

constexpr int jobs_wanted = 10000;
constexpr int jobs_solved =
    20; // their files stand for all: links to them, each with its own record

constexpr int per_board = 1000; // variants that a suite may have, the board as drawn included

// Coupons of different names, each with its variants.
Suite coupon_suite(const Means& means, const fs::path& folder, int jobs) {
    std::ifstream original(means.example("coupon-sandwich"));
    const std::string text{std::istreambuf_iterator<char>(original), {}};
    for (int i = 0; i < jobs / per_board; ++i) {
        std::string own = text;
        own.insert(own.find('"', own.find("\nname")) + 1, "K" + std::to_string(i) + " ");
        std::ofstream(folder / ("coupon-" + std::to_string(i) + ".toml")) << own;
    }
    const fs::path path = folder / "suite.toml";
    std::ofstream file(path);
    file << "format = 1\nname = \"growth\"\ncases = [\"all\"]\nboards = [\"coupon-*.toml\"]\n";
    for (int i = 1; i < per_board; ++i) {
        file << "[[variant]]\nname = \"core " << i
             << "\"\nset = { \"core.thickness_scale\" = " << 1 + 1e-4 * i << " }\n";
    }
    file.close();
    return read_suite(path.string());
}

// A finished job's folder from another's files.
void copy_job(const fs::path& from, const fs::path& to, const Job& job) {
    fs::create_directories(to);
    nlohmann::json record;
    std::ifstream(from / "job.json") >> record;
    record["key"] = job.key;
    record["variant"] = job.variant;
    for (const auto& [name, hash] : record.at("files").items()) {
        fs::create_hard_link(from / name, to / name);
    }
    std::ofstream(to / "job.json") << record.dump(1);
}

struct Folder {
    double solving = 0; // of one job [s of processor, children's too]
    bool whole = false; // its last job counts as done
};

// A batch's folder as shards would leave it.
Folder make_batch(const Means& means, const fs::path& folder, int count) {
    fs::remove_all(folder);
    fs::create_directories(folder);
    const Suite suite = coupon_suite(means, folder, count);
    RunOptions options;
    options.workers = 1;
    const std::vector<Job> jobs = plan_jobs(suite, options.study, load_material_library());
    write_plan(plan_of(suite, jobs), folder);
    const std::vector<Job> first(jobs.begin(), jobs.begin() + jobs_solved);
    Folder made;
    made.solving =
        seconds_of(wall_seconds,
                   [&] { run_jobs(first, folder, options, [](const RunProgress&) {}); }) /
        jobs_solved;
    for (std::size_t i = jobs_solved; i < jobs.size(); ++i) {
        copy_job(folder / jobs[i % jobs_solved].folder, folder / jobs[i].folder, jobs[i]);
    }
    made.whole = job_state(folder / jobs.back().folder, jobs.back().key) == JobState::done;
    return made;
}

std::vector<double> summaries(const Means& means, const fs::path& folder) {
    std::vector<double> wall;
    for (int round = 0; round < 2; ++round) {
        const ProgramRun run = run_program({means.vrid, "batch", "--collect", folder.string()});
        if (run.status != 0 && run.status != 1) {
            return {};
        }
        wall.push_back(run.wall);
    }
    return wall;
}

} // namespace

std::vector<Row> suite_rows(const Means& means) {
    const std::string what = "summary and report of 1e4 jobs";
    const fs::path folder = fs::path(means.folder) / "suite";
    make_batch(means, folder, jobs_wanted / 10);
    const std::vector<double> tenth = summaries(means, folder);
    const Folder made = make_batch(means, folder, jobs_wanted);
    const std::vector<double> all = summaries(means, folder);
    fs::remove_all(folder);
    if (!made.whole || tenth.empty() || all.empty()) {
        return {not_here(7, what, "at most 10 s", "the made-up folder is not read")};
    }
    Row share = at_most(7, what + ", of the time to solve them",
                        {100 * median(all) / (made.solving * jobs_wanted)}, 5, "%");
    share.figure += ", " + spread_text(all) + " s";
    return {share, at_most(7, "the same: exponent of the jobs, 1e3 to 1e4",
                           {std::log10(median(all) / median(tenth))}, 1.2)};
}

} // namespace vrid::measure
