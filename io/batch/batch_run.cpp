#include "io/batch/batch_run.hpp"

#include <algorithm>
#include <memory>
#include <thread>

#include "io/batch/job_files.hpp"
#include "io/batch/job_processes.hpp"
#include "io/batch/kept_meshes.hpp"
#include "io/design/number_names.hpp"
#include "solver/system/free_memory.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

void remove_leftovers(const fs::path& folder) {
    std::error_code error;
    for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
        if (it->path().extension() == ".part") { // of a run that was killed
            std::error_code ignored;
            fs::remove(it->path(), ignored);
        }
    }
}

/// What a worker has for itself, from one job to the next.
struct Worker {
    const RunOptions& options;
    const fs::path& folder;
    KeptMeshes meshes;
    std::shared_ptr<MemoryStock> memory = std::make_shared<MemoryStock>();
};

void solve_edge(const Job& job, const Worker& worker, Session& session, SolvedBoard& solved) {
    if (!job.on_edge) {
        solved.edge_skipped = worker.options.edge.empty() ? "" : "the board file has no [stance]";
        return;
    }
    solved.edge.emplace();
    solved.edge->board = solved.board;
    solved.edge->result = session.edge(worker.options.edge);
}

std::optional<StrengthView> find_strength(const Job& job, Session& session, SolvedBoard& solved) {
    std::optional<StrengthView> view;
    if (job.with_strength) {
        solved.strength = session.strength();
        view = strength_view(solved.board, *solved.strength);
        solved.strength->study = {}; // models and motions: large, and nothing reads them
    }
    return view;
}

void solve_job(const Job& job, Worker& worker, const AskForRoom& ask) {
    StudyOptions options = worker.options.study;
    options.threads = 1;
    Session session = worker.meshes.take(job, options);
    options.memory = worker.memory;
    session.use(options);
    const int unknowns =
        std::max(session.prepared()->unknowns, job.on_edge ? session.edge_prepared()->unknowns : 0);
    const double wanted = job_bytes(unknowns);
    if (static_cast<double>(worker.memory->idle_bytes()) > wanted) {
        worker.memory->clear(); // left by a larger board
    }
    ask(wanted);
    SolvedBoard solved;
    solved.board = job.resolved;
    solved.board.hash = job.key;
    solved.warnings = job.warnings;
    solved.outline = outline_figures(solved.board);
    solved.mass = board_mass(solved.board);
    solved.study = session.study(limited_hollows(job.resolved));
    solve_edge(job, worker, session, solved);
    const std::optional<StrengthView> view = find_strength(job, session, solved);
    remove_leftovers(worker.folder / job.folder);
    write_job(worker.folder / job.folder, job, solved, view);
}

/// The shard's jobs that are not done, and in `work` the counts of those that are.
std::vector<std::size_t> jobs_to_do(const std::vector<Job>& jobs, const fs::path& folder,
                                    const RunOptions& options, RunCounts& counts) {
    std::vector<std::size_t> todo;
    const auto shards = static_cast<std::size_t>(options.shards);
    for (std::size_t i = static_cast<std::size_t>(options.shard) - 1; i < jobs.size();
         i += shards) {
        const JobState state = job_state(folder / jobs[i].folder, jobs[i].key);
        if (state == JobState::done) {
            ++counts.kept;
            continue;
        }
        if (state == JobState::damaged) {
            counts.damaged.push_back(jobs[i].folder);
        }
        todo.push_back(i);
    }
    return todo;
}

} // namespace

double job_bytes(int unknowns) {
    return bytes_per_job + bytes_per_unknown * unknowns;
}

RunCounts run_jobs(const std::vector<Job>& jobs, const fs::path& folder, const RunOptions& options,
                   const std::function<void(const RunProgress&)>& tell) {
    RunCounts counts;
    const std::vector<std::size_t> todo = jobs_to_do(jobs, folder, options, counts);
    const std::size_t all = counts.kept + todo.size();
    std::string last;
    Worker worker{options, folder, {}}; // each process has its copy
    JobCalls calls;
    calls.work = [&](std::size_t i, const AskForRoom& ask) {
        const Job& job = jobs[todo[i]];
        if (job.error.empty()) {
            solve_job(job, worker, ask);
        }
    };
    calls.ended = [&](std::size_t i, const std::string& why) {
        const Job& job = jobs[todo[i]];
        const std::string& error = job.error.empty() ? why : job.error;
        if (!error.empty()) {
            remove_leftovers(folder / job.folder);
            write_failed_job(folder / job.folder, job, error);
        }
        ++(error.empty() ? counts.solved : counts.failed);
        last = job.board;
    };
    calls.watch = [&] { tell({counts.kept + counts.solved + counts.failed, all, last}); };
    const FreeMemory free = free_memory();
    const double memory = options.memory > 0 ? options.memory : free.machine;
    const int cores = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
    const auto workers = std::min<std::size_t>(
        static_cast<std::size_t>(options.workers > 0 ? options.workers : cores), todo.size());
    run_in_processes(todo.size(), calls, {static_cast<int>(workers), memory, free.process});
    return counts;
}

} // namespace vrid
