#include <algorithm>
#include <filesystem>
#include <memory>
#include <ostream>
#include <set>

#include "io/batch/batch_run.hpp"
#include "io/batch/folder_lock.hpp"
#include "io/batch/summary.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/caution.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"

namespace vrid {
namespace {

namespace fs = std::filesystem;

struct BatchArguments {
    std::string suite, out, collect;
    bool strict = false;
    RunOptions run;
};

/// "2/4": the second of four.
void read_shard(const Arguments& arguments, RunOptions& run, std::vector<Problem>& problems) {
    const std::string text = text_of(arguments, "--shard");
    if (!arguments.has("--shard")) {
        return;
    }
    const std::size_t slash = text.find('/');
    const auto whole = [](const std::string& word) {
        const bool digits = !word.empty() && word.size() < 7 &&
                            word.find_first_not_of("0123456789") == std::string::npos;
        return digits ? std::stoi(word) : 0;
    };
    run.shard = whole(text.substr(0, slash));
    run.shards = slash == std::string::npos ? 0 : whole(text.substr(slash + 1));
    if (run.shard < 1 || run.shard > run.shards) {
        problems.push_back(
            {"--shard", "found '" + text + "'; accepted: I/N with I from 1 to N, such as 2/4"});
    }
}

BatchArguments understand(const Arguments& arguments) {
    std::vector<Problem> problems;
    BatchArguments all;
    all.suite = arguments.positional.empty() ? "" : arguments.positional.front();
    all.out = text_of(arguments, "--out");
    all.collect = text_of(arguments, "--collect");
    if (arguments.has("--collect") && (!all.suite.empty() || arguments.has("--out"))) {
        problems.push_back({"--collect", "takes the folder alone: no suite, no --out"});
    } else if (arguments.has("--collect") ? all.collect.empty()
                                          : all.suite.empty() || all.out.empty()) {
        problems.push_back({"", "give a suite and --out DIR, or --collect DIR"});
    }
    all.strict = arguments.has("--strict");
    read_shard(arguments, all.run, problems);
    const auto whole = [&](const char* name, double most) {
        return static_cast<int>(number_of(arguments, {name, 1, most, true}, problems).value_or(0));
    };
    all.run.workers = whole("--jobs", 1024);
    all.run.study.degree = whole("--degree", 6);
    all.run.study.max_size =
        number_of(arguments, {"--size-mm", 1, 1000, false}, problems).value_or(0) /
        bench_unit(Unit::length).per_si;
    all.run.study.flat = arguments.has("--flat");
    constexpr double bytes_per_megabyte = 1e6;
    all.run.memory = bytes_per_megabyte *
                     number_of(arguments, {"--memory-mb", 1, 1e9, false}, problems).value_or(0);
    throw_if_any(problems);
    return all;
}

/// Tells how many jobs are done.
std::function<void(const RunProgress&)> progress_of_jobs(Console& console) {
    return [bar = progress_of(console)](const RunProgress& progress) {
        const double share = progress.all == 0 ? 1
                                               : static_cast<double>(progress.done) /
                                                     static_cast<double>(progress.all);
        bar(std::to_string(progress.done) + " of " + std::to_string(progress.all) + " jobs",
            std::min(share, 0.999)); // 1 would wipe the bar
    };
}

bool judges_strength(const Row& row) {
    return std::ranges::any_of(
        row.numbers, [](const RowNumber& number) { return number.name.starts_with("strength."); });
}

/// Results of the plan's rows, the files over all of them, and what to tell the user.
int summarise(BatchPlan plan, const fs::path& folder, Console& console) {
    read_results(plan.rows, folder);
    bool judged = true;
    if (plan.drift) {
        if (const auto baseline = read_baseline(plan.drift->baseline)) {
            find_drift(plan.rows, *baseline, plan.drift->percent);
            console.err << unmatched_text(plan.rows, *baseline);
        } else {
            judged = false;
            console.err << "no summary.json that can be read in the baseline "
                        << plan.drift->baseline << ": drift cannot be judged\n";
        }
    }
    StagedFiles files(folder);
    files.add("summary.csv", summary_csv(plan.rows));
    files.add("summary.json", summary_json(plan.suite, plan.rows));
    files.add("report.html", batch_report(plan, folder));
    files.publish();
    console.out << summary_text(plan.rows) << caution_text();
    if (std::ranges::any_of(plan.rows, judges_strength)) {
        console.out << strength_caution() << "\n";
    }
    const bool kept = !any_failed(plan.rows) && !any_exceeded(plan.rows) && !any_drift(plan.rows) &&
                      !any_without_rest(plan.rows);
    return kept && judged ? exit_done : exit_limit_exceeded;
}

/// Each once, where it comes first: the variants of a board have most of them in common with it.
void tell_warnings(const Suite& suite, const std::vector<Job>& jobs, Console& console) {
    for (const Problem& warning : suite.warnings) {
        console.err << warning.place << ": warning: " << warning.message << "\n";
    }
    std::set<std::pair<std::string, std::string>> told;
    for (const Job& job : jobs) {
        for (const Problem& warning : job.warnings) {
            if (told.emplace(warning.place, warning.message).second) {
                console.err << warning.place << ": warning: " << warning.message
                            << (job.variant.empty() ? "" : " (variant '" + job.variant + "')")
                            << "\n";
            }
        }
    }
}

void tell_counts(const RunCounts& counts, Console& console) {
    for (const std::string& folder : counts.damaged) {
        console.err << folder << ": its files were damaged; the job was run again\n";
    }
    if (counts.kept > 0) {
        console.err << counts.kept << " finished before, " << counts.solved << " solved now\n";
    }
}

int run_suite(const BatchArguments& given, Console& console) {
    const Suite suite = read_suite(given.suite);
    if (given.run.study.flat && !suite.edge.empty() && suite.edge.front().bent) {
        throw InputError(suite.file, "[edge] bent does not go with --flat: a flat blank has no "
                                     "heights to turn with the bent board");
    }
    RunOptions options = given.run;
    options.study.cases = suite.cases;
    options.study.bend = suite.bend;
    options.edge = suite.edge;
    const fs::path folder = given.out;
    const StagedFiles created(folder);
    const bool shards = options.shards > 1;
    const FolderLock all(folder / "batch.lock", shards);
    std::unique_ptr<FolderLock> own;
    if (shards) {
        own = std::make_unique<FolderLock>(folder /
                                               ("batch-" + std::to_string(options.shard) + "-of-" +
                                                std::to_string(options.shards) + ".lock"),
                                           false);
    }
    const std::vector<Job> jobs =
        plan_jobs(suite, options.study, load_material_library(), given.strict);
    tell_warnings(suite, jobs, console);
    const BatchPlan plan = plan_of(suite, jobs);
    write_plan(plan, folder);
    const RunCounts counts = run_jobs(jobs, folder, options, progress_of_jobs(console));
    wipe_progress(console);
    tell_counts(counts, console);
    if (!shards) {
        return summarise(plan, folder, console);
    }
    console.out << "shard " << options.shard << "/" << options.shards
                << " is done: " << counts.kept + counts.solved << " jobs finished, "
                << counts.failed << " failed; after the last shard: vrid batch --collect "
                << given.out << "\n";
    return counts.failed == 0 ? exit_done : exit_limit_exceeded;
}

int run_batch(const Arguments& arguments, Console& console) {
    const BatchArguments given = understand(arguments);
    if (given.collect.empty()) {
        return run_suite(given, console);
    }
    const BatchPlan plan = read_plan(given.collect);
    const FolderLock all(fs::path(given.collect) / "batch.lock", false);
    return summarise(plan, given.collect, console);
}

std::vector<Option> batch_options() {
    return {{"--out", "DIR", "The batch's folder; finished jobs in it are not run again."},
            {"--shard", "I/N", "Run only every N-th job, starting with the I-th; no summary."},
            {"--collect", "DIR", "Make the summary of a folder that shards have worked in."},
            {"--jobs", "N", "Jobs at once, one thread each. Default: one a core."},
            {"--memory-mb", "MB",
             "Memory for all jobs together. Default: what is free. A job takes about 40 MB plus 9 "
             "kB per unknown; it waits until there is room, and fails if there never is."},
            {"--strict", "", "Count a board file with warnings as a failed job."},
            {"--degree", "P", "Polynomial degree of the elements, 1 to 6."},
            {"--size-mm", "MM", "Longest side of an element."},
            flat_option()};
}

} // namespace

Verb batch_verb() {
    return {
        "batch",
        "many boards and variants: summary, drift, report; can be interrupted",
        "SUITE",
        0,
        1,
        "Solves every board of a suite file, and every variant of it. Each job's folder is "
        "named by a hash of everything its numbers depend on: a finished job is not run again, "
        "a changed board is. If it is killed at any moment, the same command carries on where "
        "it stopped and ends with the same summary.\n\nWrites summary.csv, summary.json and "
        "report.html. A change against the suite's baseline is drift when it is larger than "
        "the sum of both error bars and than the suite's percentage. A variant is solved on "
        "the mesh of its board as drawn. With [edge] every board is also tilted on its left "
        "edge, at every angle with every load and hardness (vrid edge); its numbers are named "
        "for limits as \"edge 45 deg 800 N 5 N/mm3 loss nose\"; a limit on edge.loss_nose holds in "
        "every condition without one of its own.\n\nExit status 1: a job "
        "failed, a limit was exceeded, a number drifted, a board found no equilibrium on its "
        "edge, or the baseline could not be read. The other jobs still run.",
        batch_options(),
        {"vrid batch nightly.toml --out last-night",
         "vrid batch nightly.toml --out last-night --shard 2/8", "vrid batch --collect last-night"},
        run_batch,
        true};
}

} // namespace vrid
