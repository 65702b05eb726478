#include "io/batch/batch_run.hpp"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <fstream>
#include <mutex>
#include <thread>

#include "io/batch/job_files.hpp"
#include "io/batch/shared_meshes.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

/// Free memory of the machine, or less where a limit is set on this process's group.
double free_memory() {
    double least = 1e18;
    std::ifstream file("/proc/meminfo");
    for (std::string word; file >> word;) {
        if (word == "MemAvailable:") {
            double kilobytes = 0;
            file >> kilobytes;
            least = 1024 * kilobytes;
        }
    }
    double limit = 0;
    double used = 0;
    if (std::ifstream("/sys/fs/cgroup/memory.max") >> limit &&
        std::ifstream("/sys/fs/cgroup/memory.current") >> used) {
        least = std::min(least, std::max(0.0, limit - used));
    }
    return least;
}

/// What all workers share. Whoever changes it holds the mutex.
struct Work {
    std::mutex guard;
    std::condition_variable changed;
    std::size_t next = 0;
    std::size_t finished = 0;
    double memory = 0; // not taken by any job
    int running = 0;   // workers
    bool stop = false;
    std::exception_ptr error;
    RunCounts counts;
    std::string last;
};

/// Room for a job, taken as long as this lives.
class Room {
  public:
    Room(Work& work, double all, double wanted) : work_(work), wanted_(wanted) {
        if (wanted > all) {
            throw SolveError("memory", "the job needs about " + megabytes(wanted) + ", free are " +
                                           megabytes(all));
        }
        std::unique_lock<std::mutex> lock(work_.guard);
        work_.changed.wait(lock, [&] { return work_.memory >= wanted_; });
        work_.memory -= wanted_;
    }
    ~Room() {
        const std::lock_guard<std::mutex> lock(work_.guard);
        work_.memory += wanted_;
        work_.changed.notify_all();
    }
    Room(const Room&) = delete;
    Room& operator=(const Room&) = delete;

  private:
    static std::string megabytes(double bytes) {
        return std::to_string(static_cast<long>(bytes / 1e6)) + " MB";
    }
    Work& work_;
    double wanted_;
};

void remove_leftovers(const fs::path& folder) {
    std::error_code error;
    for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
        if (it->path().extension() == ".part") { // of a run that was killed
            std::error_code ignored;
            fs::remove(it->path(), ignored);
        }
    }
}

struct Setting {
    const std::vector<Job>& jobs;
    const std::vector<std::size_t>& todo;
    const fs::path& folder;
    const RunOptions& options;
    double memory;
};

/// What a worker has for itself.
struct Worker {
    Work& work;
    SharedMeshes& meshes;
    std::shared_ptr<MemoryStock> memory = std::make_shared<MemoryStock>();
};

void solve_edge(const Job& job, const Setting& setting, Session& session, SolvedBoard& solved) {
    if (!job.on_edge) {
        solved.edge_skipped = setting.options.edge.empty() ? "" : "the board file has no [stance]";
        return;
    }
    solved.edge.emplace();
    solved.edge->board = solved.board;
    solved.edge->result = session.edge(setting.options.edge);
}

void solve_job(const Job& job, const Setting& setting, Worker& worker) {
    StudyOptions options = setting.options.study;
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
    const Room room(worker.work, setting.memory, wanted);
    SolvedBoard solved;
    solved.board = job.resolved;
    solved.board.hash = job.key;
    solved.warnings = job.warnings;
    solved.outline = outline_figures(solved.board);
    solved.mass = board_mass(solved.board);
    solved.study = session.study();
    solve_edge(job, setting, session, solved);
    remove_leftovers(setting.folder / job.folder);
    write_job(setting.folder / job.folder, job, solved);
}

/// The error of the job; empty: it is done. Only an output error ends the batch.
std::string try_job(const Job& job, const Setting& setting, Worker& worker) {
    if (!job.error.empty()) {
        return job.error;
    }
    try {
        solve_job(job, setting, worker);
        return "";
    } catch (const OutputError&) {
        throw;
    } catch (const std::bad_alloc&) {
        return "memory: not enough for this job";
    } catch (const std::exception& error) {
        return error.what();
    }
}

void run_one(const Job& job, const Setting& setting, Worker& worker) {
    const std::string error = try_job(job, setting, worker);
    worker.meshes.release(job);
    if (!error.empty()) {
        remove_leftovers(setting.folder / job.folder);
        write_failed_job(setting.folder / job.folder, job, error);
    }
    Work& work = worker.work;
    const std::lock_guard<std::mutex> lock(work.guard);
    ++(error.empty() ? work.counts.solved : work.counts.failed);
    ++work.finished;
    work.last = job.board;
}

void work_through(const Setting& setting, SharedMeshes& meshes, Work& work) {
    try {
        Worker worker{work, meshes};
        for (;;) {
            std::size_t mine = 0;
            {
                const std::lock_guard<std::mutex> lock(work.guard);
                if (work.stop || work.next == setting.todo.size()) {
                    break;
                }
                mine = setting.todo[work.next++];
            }
            run_one(setting.jobs[mine], setting, worker);
            work.changed.notify_all();
        }
    } catch (...) { // carried to the thread that waits
        const std::lock_guard<std::mutex> lock(work.guard);
        work.error = std::current_exception();
        work.stop = true;
    }
    const std::lock_guard<std::mutex> lock(work.guard);
    --work.running;
    work.changed.notify_all();
}

/// Waits for the workers; tells how far they are.
void watch(const Setting& setting, Work& work,
           const std::function<void(const RunProgress&)>& tell) {
    constexpr auto pause = std::chrono::milliseconds(200);
    std::unique_lock<std::mutex> lock(work.guard);
    while (work.running > 0) {
        work.changed.wait_for(lock, pause);
        const RunProgress progress{work.counts.kept + work.finished,
                                   work.counts.kept + setting.todo.size(), work.last};
        lock.unlock();
        std::exception_ptr cancelled;
        try {
            tell(progress);
        } catch (...) { // carried until the workers have ended in good order
            cancelled = std::current_exception();
        }
        lock.lock();
        if (cancelled && !work.error) {
            work.error = cancelled;
            work.stop = true;
        }
    }
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
    Work work;
    const std::vector<std::size_t> todo = jobs_to_do(jobs, folder, options, work.counts);
    const double memory = options.memory > 0 ? options.memory : free_memory();
    const Setting setting{jobs, todo, folder, options, memory};
    SharedMeshes meshes(jobs, todo);
    work.memory = memory;
    const int cores = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
    work.running = static_cast<int>(std::min<std::size_t>(
        static_cast<std::size_t>(options.workers > 0 ? options.workers : cores), todo.size()));
    std::vector<std::thread> threads;
    for (int i = work.running; i > 0; --i) {
        threads.emplace_back([&] { work_through(setting, meshes, work); });
    }
    watch(setting, work, tell);
    for (std::thread& thread : threads) {
        thread.join();
    }
    if (work.error) {
        std::rethrow_exception(work.error);
    }
    return std::move(work.counts);
}

} // namespace vrid
