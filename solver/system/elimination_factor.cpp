#include <algorithm>
#include <array>
#include <atomic>
#include <cassert>
#include <chrono>
#include <cstddef>
#include <memory>
#include <numeric>
#include <stdexcept>

#include "mesh/board/error.hpp"
#include "mesh/dense_memory.hpp"
#include "solver/system/dense_front.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/elimination_order.hpp"
#include "solver/system/elimination_plan.hpp"
#include "solver/system/free_memory.hpp"
#include "solver/system/front_assembly.hpp"
#include "solver/system/large_memory.hpp"
#include "solver/system/out_of_memory.hpp"
#include "solver/system/task_queue.hpp"

namespace vrid {

namespace {

/// Memory that comes and goes in the order of the elimination. Fronts of even and of odd depth have
/// a stack each: when a front is joined, its children's matrices are the top of the other stack.
class DepthStacks {
  public:
    /// Empties both stacks and makes room.
    void reserve(std::size_t even, std::size_t odd, MemoryStock& stock) {
        const std::array<std::size_t, 2> size = {even, odd};
        for (int i = 0; i < 2; ++i) {
            if (size[i] > capacity_[i]) {
                memory_[i] = stock.lend(size[i]);
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
    std::array<std::shared_ptr<double>, 2> memory_;
    std::array<std::size_t, 2> capacity_ = {0, 0};
    std::array<std::size_t, 2> top_ = {0, 0};
};

// A pivot below this part of the assembled diagonal is rounding: thin boards (thickness / span =
// 1e-4) come down to about 1e-11, a free motion to 1e-16 times the square root of its updates.
constexpr double lost_pivot = 1e-13;

// The system lends more than it has and ends the program without a word when all is used: asked
// before, there is an answer. Small factors are not worth the question.
void check_room(const EliminationPlan& plan, const MemoryStock& stock) {
    constexpr double small = 64e6; // bytes
    const double wanted =
        sizeof(double) * (static_cast<double>(plan.size) + static_cast<double>(plan.kept_size)) -
        static_cast<double>(stock.idle_bytes());
    if (wanted < small) {
        return;
    }
    if (const double free = free_memory().process; wanted > free) {
        const auto megabytes = [](double bytes) {
            return std::to_string(static_cast<long>(bytes / 1e6)) + " MB";
        };
        const int unknowns = std::accumulate(plan.pivots.begin(), plan.pivots.end(), 0);
        throw OutOfMemory("the factor of " + std::to_string(unknowns) + " unknowns needs " +
                          megabytes(wanted) + ", free are " + megabytes(free));
    }
}

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
    bool tells = false; // of the calling thread
};

class Factorisation {
  public:
    Factorisation(const EliminationTree& tree, const ElementStiffness& stiffness, Factor& factor,
                  const FactorOptions& options)
        : tree_(tree), stiffness_(stiffness), factor_(factor),
          plan_(plan_elimination(tree, factor.fixed, options)),
          tasks_(split_tasks(tree, plan_, options.means.threads)),
          stock_(options.means.stock != nullptr ? *options.means.stock : MemoryStock()),
          progress_(options.means.progress), task_of_(tree.fronts.size(), -1),
          handed_(tree.fronts.size(), nullptr), owned_(tree.fronts.size()) {
        check_room(plan_, stock_);
        columns_ = stock_.lend(plan_.size);
        kept_ = stock_.lend(plan_.kept_size);
        for (std::size_t t = 0; t < tasks_.size(); ++t) {
            task_of_[tasks_[t].front] = static_cast<int>(t);
        }
        for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
            if (plan_.compute[f] == 0) {
                factor.fronts[f] = options.shared->fronts[f];
                handed_[f] = factor.fronts[f]->schur.get();
            }
        }
    }

    void run(int threads) {
        std::vector<WaitingTask> waiting;
        for (const EliminationTask& task : tasks_) {
            const int parent = tree_.fronts[task.front].parent;
            waiting.push_back({parent < 0 ? -1 : task_of_[parent], plan_.work[task.front]});
        }
        std::vector<Workspace> space(threads);
        space.front().tells = static_cast<bool>(progress_);
        run_tasks(waiting, threads,
                  [&](int task, int thread) { do_task(tasks_[task], space[thread]); });
    }

    [[nodiscard]] const EliminationPlan& plan() const { return plan_; }

  private:
    void do_task(const EliminationTask& task, Workspace& space) {
        if (!task.subtree) {
            do_front(task.front, space);
            return;
        }
        reserve_stacks(task.front, space.stacks);
        for (int f = tree_.fronts[task.front].first_in_subtree; f <= task.front; ++f) {
            if (plan_.compute[f] != 0) {
                do_front(f, space);
            }
        }
    }

    // What the front hands on is only needed within the task.
    [[nodiscard]] bool on_stack(int f) const {
        return plan_.compute[f] != 0 && task_of_[f] < 0 && plan_.keep[f] == 0;
    }

    // Runs through the subtree as do_task will, to know how high the stacks grow.
    void reserve_stacks(int root, DepthStacks& stacks) {
        std::array<std::size_t, 2> top = {0, 0};
        std::array<std::size_t, 2> most = {0, 0};
        for (int f = tree_.fronts[root].first_in_subtree; f <= root; ++f) {
            if (plan_.compute[f] == 0) {
                continue;
            }
            const EliminationFront& front = tree_.fronts[f];
            const int parity = front.depth % 2;
            if (on_stack(f)) {
                top[parity] += handed_size(boundary_dofs(front));
                most[parity] = std::max(most[parity], top[parity]);
            }
            for (const int child : front.children) {
                if (on_stack(child)) {
                    top[1 - parity] -= handed_size(boundary_dofs(tree_.fronts[child]));
                }
            }
        }
        stacks.reserve(most[0], most[1], stock_);
    }

    void do_front(int f, Workspace& space) {
        const FrontAssembly front = prepare(f, space);
        assemble(f, front, space);
        eliminate(f, front, space);
        if (front.m > 0) {
            std::copy_n(front.diagonal + front.k, front.m,
                        front.rest + static_cast<std::size_t>(front.m) * front.m);
        }
        for (const int child : tree_.fronts[f].children) {
            if (on_stack(child)) {
                space.stacks.pop(tree_.fronts[child].depth,
                                 handed_size(boundary_dofs(tree_.fronts[child])));
            }
            owned_[child].reset();
        }
        auto done = std::make_shared<FrontFactor>();
        done->pivots = front.k;
        done->boundary = front.m;
        done->panel = std::shared_ptr<const double>(columns_, front.panel);
        if (plan_.keep[f] != 0) {
            done->schur = std::shared_ptr<const double>(kept_, front.rest);
        }
        factor_.fronts[f] = std::move(done);
        tell(front, space);
    }

    // The share done, as seldom as anybody reads it.
    void tell(const FrontAssembly& front, const Workspace& space) {
        done_ += front_work(front.k, front.m);
        const auto now = std::chrono::steady_clock::now();
        if (space.tells && now - told_ >= std::chrono::milliseconds(100)) {
            told_ = now;
            progress_(std::min(done_ / total_work(tree_, plan_), 1.0));
        }
    }

    // An empty front: its memory, and the rows of its unknowns.
    FrontAssembly prepare(int f, Workspace& space) {
        FrontAssembly front;
        front.k = plan_.pivots[f];
        front.m = boundary_dofs(tree_.fronts[f]);
        const int n = front.k + front.m;
        front.panel = columns_.get() + plan_.place[f];
        std::fill_n(front.panel, static_cast<std::size_t>(n) * front.k, 0.0);
        space.diagonal.assign(n, 0);
        front.diagonal = space.diagonal.data();
        if (front.m > 0) {
            const std::size_t size = handed_size(front.m);
            if (on_stack(f)) {
                front.rest = space.stacks.push(tree_.fronts[f].depth, size);
            } else if (plan_.keep[f] != 0) {
                front.rest = kept_.get() + plan_.kept_place[f];
            } else {
                owned_[f] = stock_.lend(size);
                front.rest = owned_[f].get();
            }
            std::fill_n(front.rest, size - front.m, 0.0);
            handed_[f] = front.rest;
        }
        number_front_rows(tree_.fronts[f], factor_.fixed, space.row);
        return front;
    }

    // Rows of incoming nodes, by their positions in the front.
    static void gather_runs(const int* position, int nodes, Workspace& space) {
        space.incoming.resize(static_cast<std::size_t>(nodes) * node_dofs);
        for (int i = 0; i < nodes; ++i) {
            std::copy_n(space.row.begin() + static_cast<std::ptrdiff_t>(node_dofs) * position[i],
                        node_dofs,
                        space.incoming.begin() + static_cast<std::ptrdiff_t>(node_dofs) * i);
        }
        find_runs(space.incoming, space.runs);
    }

    void assemble(int f, const FrontAssembly& front, Workspace& space) {
        const int* position = tree_.fronts[f].position.data();
        for (const int e : tree_.fronts[f].elements) {
            const int nodes = tree_.dofs.first[e + 1] - tree_.dofs.first[e];
            space.element.resize(static_cast<Eigen::Index>(nodes) * node_dofs,
                                 static_cast<Eigen::Index>(nodes) * node_dofs);
            stiffness_(e, space.element);
            assert(space.element.isApprox(space.element.transpose(), 1e-9));
            gather_runs(position, nodes, space);
            add_element(front, space.element, space.runs);
            position += nodes;
        }
        for (const int child : tree_.fronts[f].children) {
            const int nodes = static_cast<int>(tree_.fronts[child].boundary.size());
            gather_runs(position, nodes, space);
            add_child(front, handed_[child], nodes * node_dofs, space.runs);
            position += nodes;
        }
    }

    void eliminate(int f, const FrontAssembly& front, Workspace& space) const {
        const int n = front.k + front.m;
        space.floor.resize(front.k);
        for (int i = 0; i < front.k; ++i) {
            space.floor[i] = lost_pivot * std::max(front.diagonal[i], 0.0);
        }
        space.dense.resize(static_cast<std::size_t>(n) * diagonal_block);
        const BadPivot bad =
            factor_columns(front.panel, n, front.k, space.floor.data(), space.dense.data());
        if (bad.column >= 0) {
            report(f, bad, front, space.row);
        }
        if (front.m > 0 && front.k > 0) {
            subtract_square(front.rest, front.m, front.panel + front.k, n, front.k);
        }
    }

    [[noreturn]] void report(int f, const BadPivot& bad, const FrontAssembly& front,
                             const std::vector<int>& row) const {
        const auto place = std::ranges::find(row, bad.column) - row.begin();
        const int node = tree_.fronts[f].pivots[place / node_dofs];
        const std::array<const char*, node_dofs> name = {"u", "v", "w", "bx", "by"};
        const Eigen::Vector2d& near = tree_.node_near[node];
        std::array<char, 200> text{};
        std::snprintf(text.data(), text.size(),
                      "pivot %.3g of a diagonal %.3g for %s of node %d near x = %.4f m, "
                      "y = %.4f m: the supports leave something free to move there",
                      bad.value, front.diagonal[bad.column], name[place % node_dofs], node,
                      near.x(), near.y());
        throw SolveError("factorisation", text.data());
    }

    const EliminationTree& tree_;
    const ElementStiffness& stiffness_;
    Factor& factor_;
    EliminationPlan plan_;
    std::vector<EliminationTask> tasks_;
    MemoryStock stock_;
    std::function<void(double)> progress_;
    std::atomic<double> done_{0};                // work of the finished fronts
    std::chrono::steady_clock::time_point told_; // the share
    std::shared_ptr<double> columns_;            // of all computed fronts
    std::shared_ptr<double> kept_;               // what they hand on and a later factor may want
    std::vector<int> task_of_;                   // per front: the task it ends, or -1
    std::vector<const double*> handed_;          // per front: what it hands on
    std::vector<std::shared_ptr<double>> owned_; // the same, if neither kept nor on a stack
};

FactorCost cost_of(const Factor& factor, const EliminationPlan& plan) {
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
    const auto dofs = static_cast<std::size_t>(node_dofs) * tree.dofs.nodes;
    if (fixed.size() != dofs ||
        (!options.may_change.empty() && options.may_change.size() != dofs)) {
        throw std::invalid_argument("factorise: a flag per dof is needed");
    }
    FactorOptions possible = options;
    possible.means.threads = prepare_dense(std::max(options.means.threads, 1));
    Factor factor;
    factor.tree = &tree;
    factor.fixed = fixed;
    factor.fronts.resize(tree.fronts.size());
    Factorisation work(tree, stiffness, factor, possible);
    work.run(possible.means.threads);
    factor.order = std::make_shared<const EliminationOrder>(order_rows(factor));
    factor.cost = cost_of(factor, work.plan());
    return factor;
}

} // namespace vrid
