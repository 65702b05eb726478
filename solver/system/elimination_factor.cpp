#include <algorithm>
#include <cassert>
#include <condition_variable>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <mutex>
#include <new>
#include <queue>
#include <string>
#include <thread>

#include <cblas.h>

#include "mesh/board/error.hpp"
#include "solver/system/dense_front.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/zeroed.hpp"

namespace vrid {

namespace {

// A pivot below this part of the assembled diagonal is rounding: thin boards (thickness / span =
// 1e-4) come down to about 1e-11, a free motion to 1e-16 times the square root of its updates.
constexpr double lost_pivot = 1e-13;

// What a front hands on: an m x m lower triangle and then its m sums of element diagonals.
std::size_t handed_size(int m) {
    return static_cast<std::size_t>(m) * m + m;
}

int boundary_dofs(const EliminationFront& front) {
    return node_dofs * static_cast<int>(front.boundary.size());
}

// Which fronts are computed, which taken over, and where the columns of the computed ones go.
struct Plan {
    std::vector<char> compute;      // per front
    std::vector<char> keep;         // per front: its Schur complement outlives the factorisation
    std::vector<int> pivots;        // per front: free unknowns among its pivot nodes
    std::vector<std::size_t> place; // per front: start of its columns in the slab
    std::vector<double> work;       // per front: flops and then some, of its computed subtree
    std::shared_ptr<double[]> slab;
};

double front_flops(double k, double m) {
    return k * (k * k / 3 + k * m + m * m);
}

std::vector<int> count_pivots(const EliminationTree& tree, const std::vector<char>& fixed) {
    std::vector<int> count;
    for (const EliminationFront& front : tree.fronts) {
        int k = 0;
        for (const int n : front.pivots) {
            for (int c = 0; c < node_dofs; ++c) {
                k += fixed[node_dofs * n + c] == 0 ? 1 : 0;
            }
        }
        count.push_back(k);
    }
    return count;
}

// Per front: does any pivot of its subtree satisfy the predicate?
template <class Predicate>
std::vector<char> subtree_has(const EliminationTree& tree, Predicate predicate) {
    std::vector<char> has(tree.fronts.size(), 0);
    for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
        const EliminationFront& front = tree.fronts[f];
        bool any = has[f] != 0;
        for (std::size_t i = 0; i < front.pivots.size() && !any; ++i) {
            for (int c = 0; c < node_dofs; ++c) {
                any = any || predicate(node_dofs * front.pivots[i] + c);
            }
        }
        has[f] = any ? 1 : 0;
        if (any && front.parent >= 0) {
            has[front.parent] = 1;
        }
    }
    return has;
}

// From the roots down: an unchanged front is taken over if its parent needs nothing of it, or its
// Schur complement was kept.
std::vector<char> fronts_to_compute(const EliminationTree& tree, const std::vector<char>& fixed,
                                    const Factor* shared) {
    std::vector<char> compute(tree.fronts.size(), 1);
    if (shared == nullptr || shared->tree != &tree) {
        return compute;
    }
    const auto changed =
        subtree_has(tree, [&](int dof) { return (fixed[dof] != 0) != (shared->fixed[dof] != 0); });
    for (int f = static_cast<int>(tree.fronts.size()) - 1; f >= 0; --f) {
        const int parent = tree.fronts[f].parent;
        const bool handed = parent < 0 || compute[parent] == 0 || tree.fronts[f].boundary.empty() ||
                            shared->fronts[f]->schur;
        compute[f] = changed[f] == 0 && handed ? 0 : 1;
    }
    return compute;
}

Plan make_plan(const EliminationTree& tree, const std::vector<char>& fixed,
               const FactorOptions& options) {
    Plan plan;
    const std::size_t fronts = tree.fronts.size();
    plan.compute = fronts_to_compute(tree, fixed, options.shared);
    plan.pivots = count_pivots(tree, fixed);
    plan.keep.assign(fronts, 0);
    if (!options.may_change.empty()) {
        const auto changes =
            subtree_has(tree, [&](int dof) { return options.may_change[dof] != 0; });
        for (std::size_t f = 0; f < fronts; ++f) {
            const int parent = tree.fronts[f].parent;
            plan.keep[f] = parent >= 0 && changes[parent] != 0 ? 1 : 0;
        }
    }
    plan.place.resize(fronts);
    plan.work.assign(fronts, 0);
    std::size_t size = 0;
    for (std::size_t f = 0; f < fronts; ++f) {
        if (plan.compute[f] == 0) {
            continue;
        }
        const int k = plan.pivots[f];
        const int m = boundary_dofs(tree.fronts[f]);
        plan.place[f] = size;
        size += static_cast<std::size_t>(k + m) * k;
        plan.work[f] += front_flops(k, m) + 20.0 * (k + m) * (k + m);
        if (tree.fronts[f].parent >= 0) {
            plan.work[tree.fronts[f].parent] += plan.work[f];
        }
    }
    plan.slab = zeroed(size);
    return plan;
}

// A piece of work for one thread: a whole subtree, or a single front whose children are done.
struct Task {
    int front = 0;
    bool subtree = false;
};

// Memory that comes and goes in the order of the elimination. Fronts of even and of odd depth have
// a stack each: when a front is joined, its children's matrices are the top of the other stack.
class DepthStacks {
  public:
    void reserve(std::size_t even, std::size_t odd) {
        const std::size_t size[2] = {even, odd};
        for (int i = 0; i < 2; ++i) {
            if (size[i] > capacity_[i]) {
                memory_[i] = zeroed(size[i]);
                capacity_[i] = size[i];
            }
            top_[i] = 0;
        }
    }
    double* push(int depth, std::size_t size) {
        double* at = memory_[depth % 2].get() + top_[depth % 2];
        top_[depth % 2] += size;
        return at;
    }
    void pop(int depth, std::size_t size) { top_[depth % 2] -= size; }

  private:
    std::shared_ptr<double[]> memory_[2];
    std::size_t capacity_[2] = {0, 0};
    std::size_t top_[2] = {0, 0};
};

// Consecutive incoming rows that are consecutive in the front too.
struct Run {
    int from, to, length;
};

// Buffers of one thread.
struct Workspace {
    DepthStacks stacks;
    Eigen::MatrixXd element;
    std::vector<int> row;      // of the front's dofs: row in the compacted front, -1 if fixed
    std::vector<int> incoming; // rows of an element's or a child's dofs
    std::vector<Run> runs;     // of these
    std::vector<double> diagonal;
    std::vector<double> floor;
    std::vector<double> dense;
};

// A front being assembled: columns of the pivots, and the rest.
struct Assembly {
    int k = 0, m = 0;
    double* panel = nullptr;    // (k + m) x k
    double* rest = nullptr;     // m x m
    double* diagonal = nullptr; // k + m

    [[nodiscard]] double* column(int c) const {
        // Such that column(c)[r] is entry (r, c) for r >= c in either part.
        return c < k ? panel + static_cast<std::size_t>(c) * (k + m)
                     : rest + static_cast<std::size_t>(c - k) * m - k;
    }
};

std::vector<Run>& find_runs(const std::vector<int>& row, std::vector<Run>& runs) {
    runs.clear();
    for (int i = 0; i < static_cast<int>(row.size()); ++i) {
        if (row[i] < 0) {
            continue;
        }
        if (!runs.empty() && runs.back().from + runs.back().length == i &&
            runs.back().to + runs.back().length == row[i]) {
            ++runs.back().length;
        } else {
            runs.push_back({i, row[i], 1});
        }
    }
    return runs;
}

void add(const double* from, double* to, int size) {
    for (int i = 0; i < size; ++i) {
        to[i] += from[i];
    }
}

// Adds what a child hands on (lower triangle, size x size): its rows rise in the front.
void add_child(const Assembly& front, const double* a, int size, const std::vector<Run>& runs) {
    for (std::size_t c = 0; c < runs.size(); ++c) {
        for (int j = 0; j < runs[c].length; ++j) {
            const double* from = a + static_cast<std::size_t>(runs[c].from + j) * size;
            double* to = front.column(runs[c].to + j);
            add(from + runs[c].from + j, to + runs[c].to + j, runs[c].length - j);
            for (std::size_t r = c + 1; r < runs.size(); ++r) {
                add(from + runs[r].from, to + runs[r].to, runs[r].length);
            }
        }
    }
    const double* diagonal = a + static_cast<std::size_t>(size) * size;
    for (const Run& run : runs) {
        add(diagonal + run.from, front.diagonal + run.to, run.length);
    }
}

// Adds an element matrix; its rows come in any order, so it must be full.
void add_element(const Assembly& front, const Eigen::MatrixXd& K, const std::vector<Run>& runs) {
    for (const Run& across : runs) {
        for (int j = 0; j < across.length; ++j) {
            const int row = across.to + j;
            const double* from = K.data() + static_cast<std::size_t>(across.from + j) * K.rows();
            double* to = front.column(row);
            for (const Run& run : runs) {
                if (run.to > row) {
                    add(from + run.from, to + run.to, run.length);
                }
            }
            add(from + across.from + j, to + row, across.length - j);
            front.diagonal[row] += from[across.from + j];
        }
    }
}

class Factorisation {
  public:
    Factorisation(const EliminationTree& tree, const ElementStiffness& stiffness, Factor& factor,
                  const FactorOptions& options)
        : tree_(tree), stiffness_(stiffness), factor_(factor),
          plan_(make_plan(tree, factor.fixed, options)), handed_(tree.fronts.size(), nullptr),
          owned_(tree.fronts.size()) {
        for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
            if (plan_.compute[f] == 0) {
                factor.fronts[f] = options.shared->fronts[f];
                handed_[f] = factor.fronts[f]->schur.get();
            }
        }
    }

    void run(int threads) {
        plan_tasks(threads);
        std::vector<std::thread> helpers;
        for (int t = 1; t < threads; ++t) {
            helpers.emplace_back([this] { work(); });
        }
        work();
        for (std::thread& helper : helpers) {
            helper.join();
        }
        if (error_) {
            std::rethrow_exception(error_);
        }
    }

    [[nodiscard]] const Plan& plan() const { return plan_; }

  private:
    // Subtrees small enough to balance the threads are one task; above them each front is.
    void plan_tasks(int threads) {
        const int fronts = static_cast<int>(tree_.fronts.size());
        double total = 0;
        for (int f = 0; f < fronts; ++f) {
            total += tree_.fronts[f].parent < 0 ? plan_.work[f] : 0;
        }
        const double limit = threads > 1 ? total / (8 * threads) : total;
        waiting_.assign(fronts, 0);
        is_task_.assign(fronts, 0);
        for (int f = fronts - 1; f >= 0; --f) {
            if (plan_.compute[f] == 0) {
                continue;
            }
            const int parent = tree_.fronts[f].parent;
            const bool single = plan_.work[f] > limit;
            if (parent >= 0 && (is_task_[parent] == 0 || plan_.work[parent] <= limit)) {
                continue; // inside a task
            }
            is_task_[f] = 1;
            ++tasks_left_;
            if (parent >= 0) {
                ++waiting_[parent];
            }
            if (!single) {
                ready_.push_back({f, true});
            } else {
                singles_.push_back(f);
            }
        }
        for (const int f : singles_) {
            if (waiting_[f] == 0) {
                ready_.push_back({f, false});
            }
        }
        const auto less = [this](const Task& a, const Task& b) { return before(b, a); };
        std::make_heap(ready_.begin(), ready_.end(), less);
    }

    [[nodiscard]] bool before(const Task& a, const Task& b) const {
        return plan_.work[a.front] != plan_.work[b.front]
                   ? plan_.work[a.front] > plan_.work[b.front]
                   : a.front < b.front;
    }

    void work() {
        Workspace space;
        const auto less = [this](const Task& a, const Task& b) { return before(b, a); };
        std::unique_lock lock(mutex_);
        while (true) {
            changed_.wait(lock, [this] { return !ready_.empty() || tasks_left_ == 0 || error_; });
            if (tasks_left_ == 0 || error_) {
                return;
            }
            std::pop_heap(ready_.begin(), ready_.end(), less);
            const Task task = ready_.back();
            ready_.pop_back();
            lock.unlock();
            std::exception_ptr error;
            try {
                do_task(task, space);
            } catch (...) {
                error = std::current_exception();
            }
            lock.lock();
            if (error && !error_) {
                error_ = error;
            }
            --tasks_left_;
            const int parent = tree_.fronts[task.front].parent;
            if (parent >= 0 && --waiting_[parent] == 0) {
                ready_.push_back({parent, false});
                std::push_heap(ready_.begin(), ready_.end(), less);
            }
            changed_.notify_all();
        }
    }

    void do_task(const Task& task, Workspace& space) {
        if (!task.subtree) {
            do_front(task.front, true, space);
            return;
        }
        reserve_stacks(task.front, space.stacks);
        for (int f = tree_.fronts[task.front].first_in_subtree; f <= task.front; ++f) {
            if (plan_.compute[f] != 0) {
                do_front(f, f == task.front, space);
            }
        }
    }

    [[nodiscard]] bool on_stack(int f, bool task_root) const {
        return plan_.compute[f] != 0 && !task_root && plan_.keep[f] == 0;
    }

    // Runs through the subtree as do_task will, to know how high the stacks grow.
    void reserve_stacks(int root, DepthStacks& stacks) const {
        std::size_t top[2] = {0, 0};
        std::size_t most[2] = {0, 0};
        for (int f = tree_.fronts[root].first_in_subtree; f <= root; ++f) {
            if (plan_.compute[f] == 0) {
                continue;
            }
            const EliminationFront& front = tree_.fronts[f];
            const int parity = front.depth % 2;
            if (on_stack(f, f == root)) {
                top[parity] += handed_size(boundary_dofs(front));
                most[parity] = std::max(most[parity], top[parity]);
            }
            for (const int child : front.children) {
                if (on_stack(child, false)) {
                    top[1 - parity] -= handed_size(boundary_dofs(tree_.fronts[child]));
                }
            }
        }
        stacks.reserve(most[0], most[1]);
    }

    void do_front(int f, bool task_root, Workspace& space) {
        const EliminationFront& front = tree_.fronts[f];
        Assembly assembly = prepare(f, task_root, space);
        assemble(f, assembly, space);
        eliminate(f, assembly, space);
        if (assembly.m > 0) {
            std::copy_n(assembly.diagonal + assembly.k, assembly.m,
                        assembly.rest + static_cast<std::size_t>(assembly.m) * assembly.m);
        }
        for (const int child : front.children) {
            if (is_task_[child] != 0) {
                owned_[child].reset();
            } else if (on_stack(child, false)) {
                space.stacks.pop(front.depth + 1, handed_size(boundary_dofs(tree_.fronts[child])));
            }
        }
        auto done = std::make_shared<FrontFactor>();
        done->pivots = assembly.k;
        done->boundary = assembly.m;
        done->panel = std::shared_ptr<const double[]>(plan_.slab, assembly.panel);
        if (plan_.keep[f] != 0) {
            done->schur = owned_[f];
        }
        factor_.fronts[f] = std::move(done);
    }

    Assembly prepare(int f, bool task_root, Workspace& space) {
        const EliminationFront& front = tree_.fronts[f];
        Assembly assembly;
        assembly.k = plan_.pivots[f];
        assembly.m = boundary_dofs(front);
        assembly.panel = plan_.slab.get() + plan_.place[f];
        const int n = assembly.k + assembly.m;
        space.diagonal.assign(n, 0);
        assembly.diagonal = space.diagonal.data();
        space.dense.resize(static_cast<std::size_t>(n) * diagonal_block);
        if (assembly.m > 0) {
            const std::size_t size = handed_size(assembly.m);
            if (on_stack(f, task_root)) {
                assembly.rest = space.stacks.push(front.depth, size);
            } else {
                owned_[f] = zeroed(size);
                assembly.rest = owned_[f].get();
            }
            std::fill_n(assembly.rest, size - assembly.m, 0.0);
            handed_[f] = assembly.rest;
        }
        number_rows(front, assembly, space.row);
        return assembly;
    }

    void number_rows(const EliminationFront& front, const Assembly& assembly,
                     std::vector<int>& row) const {
        row.clear();
        int next = 0;
        for (const int n : front.pivots) {
            for (int c = 0; c < node_dofs; ++c) {
                row.push_back(factor_.fixed[node_dofs * n + c] != 0 ? -1 : next++);
            }
        }
        for (int i = 0; i < assembly.m; ++i) {
            row.push_back(next++);
        }
    }

    static void gather_rows(const int* position, int nodes, const std::vector<int>& row,
                            std::vector<int>& incoming) {
        incoming.resize(static_cast<std::size_t>(nodes) * node_dofs);
        for (int i = 0; i < nodes; ++i) {
            std::copy_n(row.data() + static_cast<std::size_t>(node_dofs) * position[i], node_dofs,
                        incoming.data() + static_cast<std::size_t>(node_dofs) * i);
        }
    }

    void assemble(int f, const Assembly& assembly, Workspace& space) {
        const EliminationFront& front = tree_.fronts[f];
        const int* position = front.position.data();
        for (const int e : front.elements) {
            const int nodes = tree_.dofs.first[e + 1] - tree_.dofs.first[e];
            space.element.resize(nodes * node_dofs, nodes * node_dofs);
            stiffness_(e, space.element);
            assert(space.element.isApprox(space.element.transpose(), 1e-9));
            gather_rows(position, nodes, space.row, space.incoming);
            add_element(assembly, space.element, find_runs(space.incoming, space.runs));
            position += nodes;
        }
        for (const int child : front.children) {
            const int nodes = static_cast<int>(tree_.fronts[child].boundary.size());
            gather_rows(position, nodes, space.row, space.incoming);
            add_child(assembly, handed_[child], nodes * node_dofs,
                      find_runs(space.incoming, space.runs));
            position += nodes;
        }
    }

    void eliminate(int f, const Assembly& assembly, Workspace& space) const {
        const int n = assembly.k + assembly.m;
        space.floor.resize(assembly.k);
        for (int i = 0; i < assembly.k; ++i) {
            space.floor[i] = lost_pivot * std::max(assembly.diagonal[i], 0.0);
        }
        const BadPivot bad =
            factor_columns(assembly.panel, n, assembly.k, space.floor.data(), space.dense.data());
        if (bad.column >= 0) {
            report(f, bad, assembly, space.row);
        }
        if (assembly.m > 0 && assembly.k > 0) {
            subtract_square(assembly.rest, assembly.m, assembly.panel + assembly.k, n, assembly.k);
        }
    }

    [[noreturn]] void report(int f, const BadPivot& bad, const Assembly& assembly,
                             const std::vector<int>& row) const {
        const auto place = std::find(row.begin(), row.end(), bad.column) - row.begin();
        const int node = tree_.fronts[f].pivots[place / node_dofs];
        const char* const name[node_dofs] = {"u", "v", "w", "bx", "by"};
        const Eigen::Vector2d& near = tree_.node_near[node];
        throw SolveError(
            "factorisation",
            "pivot " + std::to_string(bad.value) + " of a diagonal " +
                std::to_string(assembly.diagonal[bad.column]) + " for " + name[place % node_dofs] +
                " of node " + std::to_string(node) + " near x = " + std::to_string(near.x()) +
                " m, y = " + std::to_string(near.y()) + " m: something there is free to move");
    }

    const EliminationTree& tree_;
    const ElementStiffness& stiffness_;
    Factor& factor_;
    Plan plan_;
    std::vector<const double*> handed_;            // per front: its Schur complement
    std::vector<std::shared_ptr<double[]>> owned_; // per front, if not on a stack
    std::vector<int> waiting_;                     // per front: children tasks not yet done
    std::vector<char> is_task_;
    std::vector<int> singles_;
    std::vector<Task> ready_; // heap, the largest work first
    int tasks_left_ = 0;
    std::exception_ptr error_;
    std::mutex mutex_;
    std::condition_variable changed_;
};

FactorCost cost_of(const Factor& factor, const Plan& plan) {
    FactorCost cost;
    for (std::size_t f = 0; f < factor.fronts.size(); ++f) {
        const double k = factor.fronts[f]->pivots;
        const double m = factor.fronts[f]->boundary;
        cost.unknowns += k;
        cost.nonzeros += k * (k + 1) / 2 + k * m;
        cost.flops += front_flops(k, m);
        cost.flops_done += plan.compute[f] != 0 ? front_flops(k, m) : 0;
        cost.bytes += 8 * (k * (k + m) + (factor.fronts[f]->schur ? m * (m + 1) : 0));
    }
    return cost;
}

} // namespace

Factor factorise(const EliminationTree& tree, const ElementStiffness& stiffness,
                 const std::vector<char>& fixed, const FactorOptions& options) {
    openblas_set_num_threads(1);
    Factor factor;
    factor.tree = &tree;
    factor.fixed = fixed;
    factor.fronts.resize(tree.fronts.size());
    Factorisation work(tree, stiffness, factor, options);
    work.run(std::max(options.threads, 1));
    factor.cost = cost_of(factor, work.plan());
    return factor;
}

} // namespace vrid
