// The own elimination against CHOLMOD's supernodal factorisation of the same matrix, one thread,
// CPU seconds; assembly of CHOLMOD's matrix and its analysis are counted separately. Built only
// where CHOLMOD is installed. Argument: the largest number of unknowns (default 1e5).

#include <cstdio>
#include <cstdlib>
#include <iterator>

#include <cholmod.h>

#include "benchmarks/plate.hpp"

namespace {

// Row of each free dof in the order of elimination, -1 for fixed ones.
std::vector<int> eliminated_order(const vrid::EliminationTree& tree, const Plate& plate) {
    std::vector<int> row(plate.fixed.size(), -1);
    int next = 0;
    for (const auto& front : tree.fronts) {
        for (const int n : front.pivots) {
            for (int d = node_dofs * n; d < node_dofs * (n + 1); ++d) {
                row[d] = plate.fixed[d] == 0 ? next++ : -1;
            }
        }
    }
    return row;
}

cholmod_sparse* assemble(const Plate& plate, const std::vector<int>& row, cholmod_common* common) {
    const auto size = static_cast<int>(plate.element.rows());
    const auto elements = plate.dofs.centroid.size();
    const auto unknowns = static_cast<std::size_t>(*std::max_element(row.begin(), row.end()) + 1);
    cholmod_triplet* entries = cholmod_allocate_triplet(
        unknowns, unknowns, elements * size * (size + 1) / 2, -1, CHOLMOD_REAL, common);
    std::size_t next = 0;
    for (std::size_t e = 0; e < elements; ++e) {
        const auto row_of = [&](int i) {
            return row[node_dofs * plate.dofs.node[plate.dofs.first[e] + i / node_dofs] +
                       i % node_dofs];
        };
        for (int a = 0; a < size; ++a) {
            for (int b = 0; b <= a; ++b) {
                if (row_of(a) >= 0 && row_of(b) >= 0) {
                    static_cast<int*>(entries->i)[next] = std::max(row_of(a), row_of(b));
                    static_cast<int*>(entries->j)[next] = std::min(row_of(a), row_of(b));
                    static_cast<double*>(entries->x)[next++] = plate.element(a, b);
                }
            }
        }
    }
    entries->nnz = next;
    cholmod_sparse* K = cholmod_triplet_to_sparse(entries, next, common);
    cholmod_free_triplet(&entries, common);
    return K;
}

void time_cholmod(cholmod_sparse* K, const char* name, int ordering, cholmod_common* common) {
    common->nmethods = 1;
    common->method[0].ordering = ordering;
    double start = cpu_seconds();
    cholmod_factor* L = cholmod_analyze(K, common);
    const double analysis = cpu_seconds() - start;
    double best = 1e300;
    for (int i = 0; i < 4; ++i) {
        start = cpu_seconds();
        cholmod_factorize(K, L, common);
        best = std::min(best, cpu_seconds() - start);
    }
    cholmod_dense* b = cholmod_ones(K->nrow, 10, CHOLMOD_REAL, common);
    start = cpu_seconds();
    cholmod_dense* x = cholmod_solve(CHOLMOD_A, L, b, common);
    std::printf("  CHOLMOD, %-10s analysis %.4f, factor %.4f, 10 rhs %.4f, %.2f Gflop\n", name,
                analysis, best, cpu_seconds() - start, common->fl * 1e-9);
    cholmod_free_dense(&x, common);
    cholmod_free_dense(&b, common);
    cholmod_free_factor(&L, common);
}

void time_own(const Plate& plate) {
    double start = cpu_seconds();
    const auto tree = vrid::build_tree(plate.dofs);
    const double analysis = cpu_seconds() - start;
    vrid::Factor factor;
    double best = 1e300;
    for (int i = 0; i < 4; ++i) {
        factor = {};
        start = cpu_seconds();
        factor = vrid::factorise(
            tree, [&](int, Eigen::MatrixXd& K) { K = plate.element; }, plate.fixed);
        best = std::min(best, cpu_seconds() - start);
    }
    const Eigen::MatrixXd b =
        Eigen::MatrixXd::Ones(static_cast<Eigen::Index>(plate.fixed.size()), 10);
    start = cpu_seconds();
    vrid::solve(factor, b);
    std::printf("  own                 tree     %.4f, factor %.4f, 10 rhs %.4f, %.2f Gflop\n",
                analysis, best, cpu_seconds() - start, factor.cost.flops * 1e-9);
}

void compare(const Plate& plate) {
    cholmod_common common;
    cholmod_start(&common);
    common.supernodal = CHOLMOD_SUPERNODAL;
    const auto tree = vrid::build_tree(plate.dofs);
    const double start = cpu_seconds();
    cholmod_sparse* K = assemble(plate, eliminated_order(tree, plate), &common);
    std::printf("%zu unknowns: assembly for CHOLMOD %.4f s\n", K->nrow, cpu_seconds() - start);
    time_cholmod(K, "our order", CHOLMOD_NATURAL, &common);
    time_cholmod(K, "AMD", CHOLMOD_AMD, &common);
    time_cholmod(K, "METIS", CHOLMOD_METIS, &common);
    time_own(plate);
    cholmod_free_sparse(&K, &common);
    cholmod_finish(&common);
}

} // namespace

int main(int count, char** argument) {
    const double largest = count > 1 ? std::atof(argument[1]) : 1e5;
    openblas_set_num_threads(1);
    for (const int p : {1, 4}) {
        for (const double target : {3e4, 1e5, 3e5}) {
            if (target <= largest) {
                std::printf("degree %d, ", p);
                compare(Plate::of_size(target, p));
            }
        }
    }
}
