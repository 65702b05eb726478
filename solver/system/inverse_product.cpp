#include "solver/system/inverse_product.hpp"

#include <algorithm>
#include <cassert>
#include <utility>
#include <vector>

#include <cblas.h>

#include "mesh/board/lists.hpp"
#include "mesh/dense_memory.hpp"
#include "solver/system/dense_front.hpp"
#include "solver/system/front_assembly.hpp"

namespace vrid {

namespace {

using LoadRows = Eigen::SparseMatrix<double, Eigen::RowMajor>; // by unknowns

// What a front knows of the loads: those that reach it, rising, and a column each.
struct Reached {
    std::vector<Index> load;
    MatrixXd rows; // of its unknowns, or of its boundary
};

class ForwardPass {
  public:
    ForwardPass(const Factor& factor, const LoadRows& loads, MatrixXd& product)
        : factor_(factor), tree_(*factor.tree), loads_(loads), product_(product),
          handed_(tree_.fronts.size()) {}

    void run() {
        for (std::size_t f = 0; f < tree_.fronts.size(); ++f) {
            do_front(f);
        }
    }

  private:
    void do_front(std::size_t f) {
        const EliminationFront& front = tree_.fronts[f];
        Reached here;
        here.load = loads_reaching(front);
        if (here.load.empty()) {
            return;
        }
        const FrontFactor& done = *factor_.fronts[f];
        number_front_rows(front, factor_.fixed, row_);
        here.rows =
            MatrixXd::Zero(done.pivots + done.boundary, static_cast<Index>(here.load.size()));
        add_own(front, here);
        add_children(front, here);
        eliminate(done, here);
        handed_[f] = {std::move(here.load), here.rows.bottomRows(done.boundary)};
    }

    [[nodiscard]] std::vector<Index> loads_reaching(const EliminationFront& front) const {
        std::vector<Index> all;
        for (const int child : front.children) {
            all.insert(all.end(), handed_[child].load.begin(), handed_[child].load.end());
        }
        each_own(front, [&](std::size_t, Index load, double) { all.push_back(load); });
        sort_distinct(all);
        return all;
    }

    // visit(place among the pivots' dofs, load, value)
    template <class Visit> void each_own(const EliminationFront& front, const Visit& visit) const {
        for (std::size_t i = 0; i < front.pivots.size(); ++i) {
            for (int c = 0; c < node_dofs; ++c) {
                const Index dof = Index(node_dofs) * front.pivots[i] + c;
                for (LoadRows::InnerIterator it(loads_, dof); it && factor_.fixed[dof] == 0; ++it) {
                    visit(node_dofs * i + c, it.col(), it.value());
                }
            }
        }
    }

    static Index column(const Reached& reached, Index load) {
        return std::ranges::lower_bound(reached.load, load) - reached.load.begin();
    }

    void add_own(const EliminationFront& front, Reached& here) const {
        each_own(front, [&](std::size_t place, Index load, double value) {
            here.rows(row_[place], column(here, load)) += value;
        });
    }

    void add_children(const EliminationFront& front, Reached& here) {
        assert(front.elements.empty() || front.children.empty());
        const int* position = front.position.data();
        for (const int child : front.children) {
            const Reached from = std::exchange(handed_[child], {});
            const int nodes = static_cast<int>(tree_.fronts[child].boundary.size());
            for (std::size_t c = 0; c < from.load.size(); ++c) {
                const Index to = column(here, from.load[c]);
                for (int i = 0; i < node_dofs * nodes; ++i) {
                    const int row = row_[node_dofs * position[i / node_dofs] + i % node_dofs];
                    if (row >= 0) {
                        here.rows(row, to) += from.rows(i, static_cast<Index>(c));
                    }
                }
            }
            position += nodes;
        }
    }

    // y = L11^-1 x1, x2 - L21 y, and what y adds to the product.
    void eliminate(const FrontFactor& front, Reached& here) {
        const int k = front.pivots;
        const int m = front.boundary;
        const int n = k + m;
        const auto count = static_cast<int>(here.load.size());
        if (k == 0) {
            return;
        }
        solve_lower(front.panel.get(), n, k, here.rows.data(), n, count);
        if (m > 0) {
            cblas_dgemm(CblasColMajor, CblasNoTrans, CblasNoTrans, m, count, k, -1.0,
                        front.panel.get() + k, n, here.rows.data(), n, 1.0, here.rows.data() + k,
                        n);
        }
        const auto wanted = static_cast<int>(column(here, product_.cols()));
        if (wanted == 0) {
            return;
        }
        MatrixXd part(count, wanted);
        cblas_dgemm(CblasColMajor, CblasTrans, CblasNoTrans, count, wanted, k, 1.0,
                    here.rows.data(), n, here.rows.data(), n, 0.0, part.data(), count);
        for (int c = 0; c < wanted; ++c) {
            for (int r = 0; r < count; ++r) {
                product_(here.load[r], here.load[c]) += part(r, c);
            }
        }
    }

    const Factor& factor_;
    const EliminationTree& tree_;
    const LoadRows& loads_;
    MatrixXd& product_;
    std::vector<Reached> handed_; // per front, until its parent takes it
    std::vector<int> row_;        // of the front's dofs, -1 if fixed
};

} // namespace

MatrixXd inverse_product(const Factor& factor, const Eigen::SparseMatrix<double>& loads,
                         Index count) {
    assert(loads.rows() == static_cast<Index>(factor.fixed.size()) && count <= loads.cols());
    dense_on_one_thread();
    MatrixXd product = MatrixXd::Zero(loads.cols(), count);
    const LoadRows by_unknown = loads;
    ForwardPass(factor, by_unknown, product).run();
    return product;
}

} // namespace vrid
