// How a batch scales: 6 boards x 50 variants. Seconds by number of jobs, one worker against two, a
// variant against a first solve, and peak memory over the run.
#include <sys/resource.h>

#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

#include "io/batch/batch_run.hpp"

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
         << "*/board.toml\"]\n";
    for (int i = 1; i < variants; ++i) {
        file << "[[variant]]\nname = \"resin " << i << "\"\nset = { \"mass_only.resin_gsm\" = "
             << 100 + i << " }\n";
    }
    return path.string();
}

struct Timing {
    std::size_t jobs = 0;
    double seconds = 0;
};

Timing run(const fs::path& folder, int variants, int workers) {
    const vrid::Suite suite = vrid::read_suite(suite_file(folder, variants));
    vrid::RunOptions options;
    options.workers = workers;
    const auto jobs = vrid::plan_jobs(suite, options.study, vrid::load_material_library());
    const fs::path out = folder / ("out-" + std::to_string(variants) + std::to_string(workers));
    const auto start = Clock::now();
    const vrid::RunCounts counts = vrid::run_jobs(jobs, out, options, [](const auto&) {});
    const double seconds = std::chrono::duration<double>(Clock::now() - start).count();
    fs::remove_all(out);
    std::printf("%4zu jobs  %d worker(s)  %7.2f s  %6.3f s a job  peak %6.0f MB  failed %zu\n",
                jobs.size(), workers, seconds, seconds / static_cast<double>(jobs.size()),
                peak_megabytes(), counts.failed);
    return {jobs.size(), seconds};
}

} // namespace

int main() {
    const fs::path folder = fs::temp_directory_path() / "vrid-batch-scaling";
    fs::create_directories(folder);
    run(folder, 1, 1); // the libraries' first use
    const Timing first = run(folder, 1, 1);
    const Timing some = run(folder, 10, 1);
    std::printf("a variant costs %.2f of a first solve\n",
                (some.seconds - first.seconds) / static_cast<double>(some.jobs - first.jobs) /
                    (first.seconds / static_cast<double>(first.jobs)));
    double one = 0;
    double two = 0;
    for (int round = 0; round < 3; ++round) { // in turn: other load is the rule
        one += run(folder, 10, 1).seconds;
        two += run(folder, 10, 2).seconds;
    }
    std::printf("two workers are %.2f times as fast as one\n", one / two);
    const Timing all = run(folder, 50, 2);
    std::printf("300 jobs cost %.2f of five times 60\n", all.seconds / (5 * two / 3));
    fs::remove_all(folder);
    return 0;
}
