// How a batch scales: 5 boards x 60 variants of the core's thickness. A variant against a first
// solve and what sharing its mesh saves; one worker against two, on the wall and in processor time
// (which other load on the machine does not touch); seconds and peak memory over the number of
// jobs.
#include <sys/resource.h>

#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include "io/batch/batch_run.hpp"
#include "solver/system/large_memory.hpp"

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

double peak_megabytes() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024;
}

std::string suite_file(const fs::path& folder, int variants) {
    const std::string examples = std::string(VRID_SOURCE_DIR) + "/examples/";
    const fs::path path = folder / "suite.toml";
    std::ofstream file(path);
    file << "format = 1\nname = \"scaling\"\ncases = [\"all\"]\nboards = [\"" << examples
         << "nh-*/board.toml\", \"" << examples << "coupon-sandwich/board.toml\"]\n";
    for (int i = 1; i < variants; ++i) {
        file << "[[variant]]\nname = \"core " << i
             << "\"\nset = { \"core.thickness_scale\" = " << 1 + 0.001 * i << " }\n";
    }
    return path.string();
}

/// Of all threads so far [s].
double processor_seconds() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    const auto seconds = [](const timeval& t) {
        return static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_usec);
    };
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

struct Timing {
    std::size_t jobs = 0;
    double seconds = 0, processor = 0;
};

Timing run(const fs::path& folder, int variants, int workers) {
    const vrid::Suite suite = vrid::read_suite(suite_file(folder, variants));
    vrid::RunOptions options;
    options.workers = workers;
    const auto jobs = vrid::plan_jobs(suite, options.study, vrid::load_material_library());
    const fs::path out = folder / ("out-" + std::to_string(variants) + std::to_string(workers));
    const double processor = processor_seconds();
    const auto start = Clock::now();
    const vrid::RunCounts counts = vrid::run_jobs(jobs, out, options, [](const auto&) {});
    const double seconds = std::chrono::duration<double>(Clock::now() - start).count();
    const double spent = processor_seconds() - processor;
    fs::remove_all(out);
    std::printf(
        "%4zu jobs  %d worker(s)  %7.2f s  %6.3f s of processor a job  peak %6.0f MB  failed %zu\n",
        jobs.size(), workers, seconds, spent / static_cast<double>(jobs.size()), peak_megabytes(),
        counts.failed);
    return {jobs.size(), seconds, spent};
}

/// What all boards share with their variants: mesh and order of elimination [s of processor].
double prepare_seconds(const fs::path& folder) {
    const vrid::Suite suite = vrid::read_suite(suite_file(folder, 1));
    const vrid::StudyOptions options;
    const double start = processor_seconds();
    for (const vrid::Job& job : vrid::plan_jobs(suite, options, vrid::load_material_library())) {
        vrid::prepare_study(*job.drawn, options);
    }
    return processor_seconds() - start;
}

} // namespace

int main(int count, char** words) {
    vrid::keep_freed_memory();                              // as the program does
    const int rounds = count > 1 ? std::stoi(words[1]) : 3; // 1: a quick look, 50 jobs for 300
    const fs::path folder = fs::temp_directory_path() / "vrid-batch-scaling";
    fs::remove_all(folder); // of a run that was killed
    fs::create_directories(folder);
    run(folder, 1, 1); // the libraries' first use
    double first = 0;
    double variant = 0;
    double shared = 0;
    double some_seconds = 0;
    for (int round = 0; round < rounds; ++round) { // in turn: other load is the rule
        const Timing alone = run(folder, 1, 1);
        const Timing some = run(folder, 10, 1);
        some_seconds += some.seconds / rounds;
        first += alone.processor / static_cast<double>(alone.jobs);
        variant += (some.processor - alone.processor) / static_cast<double>(some.jobs - alone.jobs);
        shared += prepare_seconds(folder) / static_cast<double>(alone.jobs);
    }
    std::printf("a variant costs %.2f of a first solve; mesh and order are %.3f of one\n",
                variant / first, shared / first);
    const int variants = rounds > 1 ? 60 : 10;
    const Timing one = run(folder, variants, 1);
    const Timing two = run(folder, variants, 2);
    const Timing again = run(folder, variants, 1);
    const double seconds = (one.seconds + again.seconds) / 2;
    std::printf("two workers are %.2f times as fast as one on the wall, and take %.2f times the "
                "processor time\n%zu jobs take %.2f times 50 on the wall\n",
                seconds / two.seconds, 2 * two.processor / (one.processor + again.processor),
                one.jobs, seconds / some_seconds);
    fs::remove_all(folder);
    return 0;
}
