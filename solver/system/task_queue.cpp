#include "solver/system/task_queue.hpp"

#include <algorithm>
#include <condition_variable>
#include <cstddef>
#include <exception>
#include <mutex>

#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

class Queue {
  public:
    Queue(const std::vector<WaitingTask>& tasks, const std::function<void(int, int)>& do_task)
        : tasks_(tasks), do_task_(do_task), awaited_(tasks.size(), 0), left_(tasks.size()) {
        for (const WaitingTask& task : tasks) {
            if (task.parent >= 0) {
                ++awaited_[task.parent];
            }
        }
        for (int t = 0; t < static_cast<int>(tasks.size()); ++t) {
            if (awaited_[t] == 0) {
                push(t);
            }
        }
    }

    void work(int thread) {
        std::unique_lock lock(mutex_);
        while (true) {
            changed_.wait(lock, [this] { return !ready_.empty() || left_ == 0 || error_; });
            if (left_ == 0 || error_) {
                return;
            }
            const int task = pop();
            lock.unlock();
            std::exception_ptr error;
            try {
                do_task_(task, thread);
            } catch (...) {
                error = std::current_exception();
            }
            lock.lock();
            finish(task, error);
        }
    }

    [[nodiscard]] const std::exception_ptr& error() const { return error_; }

  private:
    [[nodiscard]] bool later(int a, int b) const {
        return tasks_[a].work != tasks_[b].work ? tasks_[a].work < tasks_[b].work : a > b;
    }

    void push(int task) {
        ready_.push_back(task);
        std::push_heap(ready_.begin(), ready_.end(), [this](int a, int b) { return later(a, b); });
    }

    int pop() {
        std::pop_heap(ready_.begin(), ready_.end(), [this](int a, int b) { return later(a, b); });
        const int task = ready_.back();
        ready_.pop_back();
        return task;
    }

    void finish(int task, const std::exception_ptr& error) {
        if (error && !error_) {
            error_ = error;
        }
        --left_;
        const int parent = tasks_[task].parent;
        if (parent >= 0 && --awaited_[parent] == 0) {
            push(parent);
        }
        changed_.notify_all();
    }

    const std::vector<WaitingTask>& tasks_;
    const std::function<void(int, int)>& do_task_;
    std::vector<int> awaited_; // per task: how many it still waits for
    std::vector<int> ready_;   // heap
    std::size_t left_;
    std::exception_ptr error_;
    std::mutex mutex_;
    std::condition_variable changed_;
};

} // namespace

void run_tasks(const std::vector<WaitingTask>& tasks, int threads,
               const std::function<void(int task, int thread)>& do_task) {
    Queue queue(tasks, do_task);
    for_each_in_parallel(threads, threads, [&](int thread) { queue.work(thread); });
    if (queue.error()) {
        std::rethrow_exception(queue.error());
    }
}

} // namespace vrid
