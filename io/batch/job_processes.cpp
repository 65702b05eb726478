#include "io/batch/job_processes.hpp"

#include <algorithm>
#include <deque>
#include <memory>
#include <vector>

#include <poll.h>

#include "io/batch/job_worker.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

namespace {

using Kind = JobMessage::Kind;

std::string megabytes(double bytes) {
    return std::to_string(static_cast<long>(bytes / 1e6)) + " MB";
}

class Processes {
  public:
    Processes(std::size_t jobs, const JobCalls& calls, const JobLimits& limits)
        : calls_(calls), limits_(limits), most_(static_cast<std::size_t>(limits.workers)),
          left_(jobs), free_(limits.memory) {
        for (std::size_t i = 0; i < jobs; ++i) {
            waiting_.push_back(i);
        }
    }

    void run() {
        while (left_ > 0) {
            give_jobs();
            give_room();
            listen();
            calls_.watch();
        }
    }

  private:
    [[nodiscard]] std::size_t busy() const {
        return static_cast<std::size_t>(std::ranges::count_if(
            workers_, [](const auto& worker) { return worker->job.has_value(); }));
    }

    void give_jobs() {
        while (!waiting_.empty() && busy() < most_) {
            auto idle =
                std::ranges::find_if(workers_, [](const auto& worker) { return !worker->job; });
            if (idle == workers_.end()) {
                try {
                    workers_.push_back(std::make_unique<JobWorker>(calls_));
                } catch (const SolveError&) {
                    if (workers_.empty()) {
                        throw;
                    }
                    most_ = workers_.size(); // the system gives no more
                    return;
                }
                idle = std::prev(workers_.end());
            }
            (*idle)->begin(waiting_.front());
            waiting_.pop_front();
        }
    }

    // In the order in which they asked, so that a large one comes to its turn.
    void give_room() {
        for (;;) {
            JobWorker* first = nullptr;
            for (const auto& worker : workers_) {
                if (worker->wants && (first == nullptr || worker->asked < first->asked)) {
                    first = worker.get();
                }
            }
            if (first == nullptr || *first->wants > free_) {
                return;
            }
            free_ -= *first->wants;
            first->room = *first->wants;
            first->wants.reset();
            first->answer(Kind::go);
        }
    }

    void listen() {
        constexpr int pause = 200; // ms, between two calls of watch
        std::vector<pollfd> sockets;
        for (const auto& worker : workers_) {
            sockets.push_back({worker->socket(), POLLIN, 0});
        }
        if (::poll(sockets.data(), sockets.size(), pause) <= 0) { // a signal too
            return;
        }
        for (const pollfd& ready : sockets) {
            if (ready.revents != 0) {
                hear(*std::ranges::find_if(
                    workers_, [&](const auto& worker) { return worker->socket() == ready.fd; }));
                std::erase(workers_, nullptr); // before the next is looked for
            }
        }
    }

    void hear(std::unique_ptr<JobWorker>& worker) {
        const auto message = receive_message(worker->socket());
        if (!message) {
            lose(worker);
            return;
        }
        switch (message->kind) {
        case Kind::room:
            want(*worker, std::stod(message->text));
            return;
        case Kind::no_output: {
            const std::size_t colon = std::min(message->text.find(": "), message->text.size());
            throw OutputError(message->text.substr(0, colon),
                              message->text.substr(std::min(colon + 2, message->text.size())));
        }
        case Kind::no_memory:
            repeat_or_fail(worker, message->text);
            return;
        default:
            end(*worker, message->text);
        }
    }

    void want(JobWorker& worker, double bytes) {
        const double most = std::min(limits_.memory, limits_.process);
        if (bytes > most) {
            worker.answer(Kind::never, "the job needs about " + megabytes(bytes) + ", free are " +
                                           megabytes(most));
            return;
        }
        worker.wants = bytes;
        worker.asked = turn_++;
    }

    // Its job is over, its memory free.
    std::size_t taken_back(JobWorker& worker) {
        const std::size_t job = *worker.job;
        free_ += worker.room;
        worker.room = 0;
        worker.wants.reset();
        worker.job.reset();
        return job;
    }

    void end(JobWorker& worker, const std::string& error) {
        const std::size_t job = taken_back(worker);
        --left_;
        calls_.ended(job, error);
    }

    void repeat_or_fail(std::unique_ptr<JobWorker>& worker, const std::string& error) {
        const std::size_t beside = busy() - 1;
        if (beside > 0) {
            most_ = std::min(most_, beside); // one fewer at a time
            waiting_.push_front(taken_back(*worker));
        } else {
            end(*worker, error);
        }
        worker.reset(); // its memory is the system's again
    }

    void lose(std::unique_ptr<JobWorker>& worker) {
        bool killed = false;
        const std::string how = worker->how_it_ended(killed);
        if (!worker->job) {
            worker.reset();
        } else if (killed) {
            repeat_or_fail(worker, how);
        } else {
            end(*worker, how);
            worker.reset();
        }
    }

    const JobCalls& calls_;
    const JobLimits& limits_;
    std::size_t most_; // at once
    std::size_t left_; // jobs that have not ended
    double free_;      // memory not given to any job [bytes]
    std::size_t turn_ = 0;
    std::deque<std::size_t> waiting_;
    std::vector<std::unique_ptr<JobWorker>> workers_;
};

} // namespace

void run_in_processes(std::size_t jobs, const JobCalls& calls, const JobLimits& limits) {
    Processes(jobs, calls, limits).run();
}

} // namespace vrid
