#include "solver/system/elimination.hpp"

#include <algorithm>
#include <numeric>
#include <random>

#include <Eigen/SparseCholesky>
#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"

namespace {

using vrid::node_dofs;

// A plate of nx x ny elements of degree p, nodes numbered row by row, with given element matrices.
struct Plate {
    vrid::ElementDofs dofs;
    std::vector<Eigen::MatrixXd> matrix;

    Plate(int nx, int ny, int p) {
        const int across = nx * p + 1;
        dofs.nodes = across * (ny * p + 1);
        dofs.first = {0};
        for (int ey = 0; ey < ny; ++ey) {
            for (int ex = 0; ex < nx; ++ex) {
                for (int j = 0; j <= p; ++j) {
                    for (int i = 0; i <= p; ++i) {
                        dofs.node.push_back((ey * p + j) * across + ex * p + i);
                    }
                }
                dofs.first.push_back(static_cast<int>(dofs.node.size()));
                dofs.centroid.emplace_back((ex + 0.5) * 0.1, (ey + 0.5) * 0.1);
            }
        }
        std::mt19937 random(7);
        std::normal_distribution<double> normal;
        const int size = node_dofs * (p + 1) * (p + 1);
        for (int e = 0; e < nx * ny; ++e) {
            Eigen::MatrixXd a(size, size);
            for (double& value : a.reshaped()) {
                value = normal(random);
            }
            matrix.emplace_back(a * a.transpose() + 0.1 * Eigen::MatrixXd::Identity(size, size));
        }
    }

    [[nodiscard]] vrid::ElementStiffness stiffness() const {
        return [this](int e, Eigen::MatrixXd& K) { K = matrix[e]; };
    }

    [[nodiscard]] int unknowns() const { return node_dofs * dofs.nodes; }

    // Fixed rows and columns replaced by those of the unit matrix.
    [[nodiscard]] Eigen::SparseMatrix<double> assembled(const std::vector<char>& fixed) const {
        std::vector<Eigen::Triplet<double>> entries;
        for (std::size_t e = 0; e < matrix.size(); ++e) {
            const auto dof = [&](int row) {
                return node_dofs * dofs.node[dofs.first[e] + row / node_dofs] + row % node_dofs;
            };
            for (int c = 0; c < matrix[e].cols(); ++c) {
                for (int r = 0; r < matrix[e].rows(); ++r) {
                    if (fixed[dof(r)] == 0 && fixed[dof(c)] == 0) {
                        entries.emplace_back(dof(r), dof(c), matrix[e](r, c));
                    }
                }
            }
        }
        for (int d = 0; d < unknowns(); ++d) {
            if (fixed[d] != 0) {
                entries.emplace_back(d, d, 1.0);
            }
        }
        Eigen::SparseMatrix<double> K(unknowns(), unknowns());
        K.setFromTriplets(entries.begin(), entries.end());
        return K;
    }

    [[nodiscard]] Eigen::MatrixXd reference(const std::vector<char>& fixed,
                                            Eigen::MatrixXd rhs) const {
        for (int d = 0; d < unknowns(); ++d) {
            if (fixed[d] != 0) {
                rhs.row(d).setZero();
            }
        }
        return Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>>(assembled(fixed)).solve(rhs);
    }
};

Eigen::MatrixXd some_loads(int rows, int columns) {
    std::srand(3);
    return Eigen::MatrixXd::Random(rows, columns);
}

double difference(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b) {
    return (a - b).norm() / b.norm();
}

// Three sets of supports: none, all of a line of nodes, some components of scattered nodes.
std::vector<std::vector<char>> support_sets(const Plate& plate, int across) {
    std::vector<std::vector<char>> sets(3, std::vector<char>(plate.unknowns(), 0));
    for (int n = across / 3; n < plate.dofs.nodes; n += across) {
        for (int c = 0; c < node_dofs; ++c) {
            sets[1][node_dofs * n + c] = 1;
        }
    }
    for (int n = 1; n < plate.dofs.nodes; n += 1 + plate.dofs.nodes / 7) {
        sets[2][node_dofs * n + 2] = 1;
        sets[2][node_dofs * n + 4] = 1;
    }
    return sets;
}

std::vector<char> changing(const std::vector<std::vector<char>>& sets) {
    std::vector<char> any(sets[0].size(), 0);
    for (const auto& set : sets) {
        for (std::size_t d = 0; d < set.size(); ++d) {
            any[d] = any[d] != 0 || set[d] != 0 ? 1 : 0;
        }
    }
    return any;
}

} // namespace

TEST_CASE("the elimination solves what a general sparse solver solves, with and without sharing") {
    for (int p = 1; p <= 4; ++p) {
        const int nx = p < 3 ? 21 : 9;
        const Plate plate(nx, 5, p);
        const auto sets = support_sets(plate, nx * p + 1);
        const Eigen::MatrixXd rhs = some_loads(plate.unknowns(), 3);
        vrid::TreeOptions options;
        options.stations = {0.3};
        const auto tree = vrid::build_tree(plate.dofs, options);
        vrid::FactorOptions keep;
        keep.may_change = changing(sets);
        const auto first = vrid::factorise(tree, plate.stiffness(), sets[0], keep);
        for (const auto& fixed : sets) {
            CAPTURE(p, &fixed - sets.data());
            const Eigen::MatrixXd expected = plate.reference(fixed, rhs);
            const auto alone = vrid::factorise(tree, plate.stiffness(), fixed);
            CHECK(difference(vrid::solve(alone, rhs), expected) < 1e-10);
            vrid::FactorOptions share = keep;
            share.shared = &first;
            const auto shared = vrid::factorise(tree, plate.stiffness(), fixed, share);
            CHECK(vrid::solve(shared, rhs) == vrid::solve(alone, rhs));
            CHECK(shared.cost.unknowns == std::count(fixed.begin(), fixed.end(), 0));
            CHECK(shared.cost.flops == alone.cost.flops);
            // A third factor shares what the second took over or made itself.
            share.shared = &shared;
            const auto again = vrid::factorise(tree, plate.stiffness(), sets[2], share);
            CHECK(difference(vrid::solve(again, rhs), plate.reference(sets[2], rhs)) < 1e-10);
        }
    }
}

TEST_CASE("columns of different factors solved together are those solved one by one") {
    const Plate plate(21, 5, 2);
    const auto sets = support_sets(plate, 43);
    const auto tree = vrid::build_tree(plate.dofs);
    vrid::FactorOptions options;
    options.may_change = changing(sets);
    std::vector<vrid::Factor> factors;
    for (const auto& fixed : sets) {
        options.shared = factors.empty() ? nullptr : &factors.front();
        factors.push_back(vrid::factorise(tree, plate.stiffness(), fixed, options));
        factors.reserve(sets.size());
    }
    const std::vector<int> order = {1, 0, 2, 1, 0, 0, 2};
    std::vector<const vrid::Factor*> own;
    for (const int i : order) {
        own.push_back(&factors[i]);
    }
    const Eigen::MatrixXd rhs = some_loads(plate.unknowns(), static_cast<int>(order.size()));
    for (const int threads : {1, 2, 3}) {
        const Eigen::MatrixXd together = vrid::solve(own, rhs, threads);
        for (std::size_t c = 0; c < order.size(); ++c) {
            CAPTURE(threads, c);
            const auto column = static_cast<Eigen::Index>(c);
            CHECK(difference(together.col(column),
                             plate.reference(sets[order[c]], rhs.col(column))) < 1e-10);
        }
    }
}

TEST_CASE("memory lent again holds one factor at a time, and no more of it is wanted every time") {
    const Plate plate(40, 6, 2);
    const auto sets = support_sets(plate, 81);
    const auto tree = vrid::build_tree(plate.dofs);
    const Eigen::MatrixXd rhs = some_loads(plate.unknowns(), 2);
    vrid::MemoryStock stock;
    vrid::FactorOptions options;
    options.means.stock = &stock;
    options.may_change = changing(sets);
    std::size_t idle = 0;
    for (int round = 0; round < 4; ++round) {
        {
            const auto first = vrid::factorise(tree, plate.stiffness(), sets[0], options);
            options.shared = &first;
            const auto second = vrid::factorise(tree, plate.stiffness(), sets[1], options);
            options.shared = nullptr;
            const auto third = vrid::factorise(tree, plate.stiffness(), sets[2], options);
            CHECK(difference(vrid::solve(first, rhs), plate.reference(sets[0], rhs)) < 1e-10);
            CHECK(difference(vrid::solve(second, rhs), plate.reference(sets[1], rhs)) < 1e-10);
            CHECK(difference(vrid::solve(third, rhs), plate.reference(sets[2], rhs)) < 1e-10);
        }
        CHECK(stock.idle_bytes() > 0);
        CHECK((round == 0 || stock.idle_bytes() == idle));
        idle = stock.idle_bytes();
    }
    stock.clear();
    CHECK(stock.idle_bytes() == 0);
}

TEST_CASE("a factor shared with equal supports computes nothing, one with few changes a part") {
    const Plate plate(30, 5, 2);
    const auto tree = vrid::build_tree(plate.dofs);
    std::vector<char> fixed(plate.unknowns(), 0);
    vrid::FactorOptions options;
    options.may_change.assign(plate.unknowns(), 0);
    options.may_change[2] = 1;
    const auto first = vrid::factorise(tree, plate.stiffness(), fixed, options);
    options.shared = &first;
    CHECK(vrid::factorise(tree, plate.stiffness(), fixed, options).cost.flops_done == 0);
    fixed[2] = 1;
    int called = 0;
    const auto counted = [&](int e, Eigen::MatrixXd& K) {
        ++called;
        plate.stiffness()(e, K);
    };
    const auto second = vrid::factorise(tree, counted, fixed, options);
    CHECK(second.cost.flops_done < 0.6 * second.cost.flops);
    CHECK(called <= 4);
}

TEST_CASE("the factorisation gives the same bits for any number of threads") {
    const Plate plate(40, 6, 2);
    const auto tree = vrid::build_tree(plate.dofs);
    const std::vector<char> fixed(plate.unknowns(), 0);
    const Eigen::MatrixXd rhs = some_loads(plate.unknowns(), 4);
    vrid::FactorOptions options;
    const Eigen::MatrixXd one = vrid::solve(vrid::factorise(tree, plate.stiffness(), fixed), rhs);
    for (const int threads : {2, 3, 2}) {
        options.means.threads = threads;
        const auto factor = vrid::factorise(tree, plate.stiffness(), fixed, options);
        CHECK(vrid::solve(factor, rhs) == one);
        CHECK(difference(vrid::solve(factor, rhs, threads), one) < 1e-12);
    }
}

TEST_CASE("a matrix that is not positive definite is an error that tells where") {
    Plate plate(12, 4, 2);
    const auto tree = vrid::build_tree(plate.dofs);
    const std::vector<char> fixed(plate.unknowns(), 0);
    plate.matrix[17](2, 2) -= 1e6;
    vrid::FactorOptions options;
    for (const int threads : {1, 2}) {
        options.means.threads = threads;
        CHECK_THROWS_WITH(vrid::factorise(tree, plate.stiffness(), fixed, options),
                          Catch::Contains("factorisation") && Catch::Contains("w of node") &&
                              Catch::Contains("near x = 0.5"));
    }
}

TEST_CASE("a body that is free to move is an error, not a large number") {
    Plate plate(12, 4, 2);
    for (Eigen::MatrixXd& K : plate.matrix) { // nothing resists a common v of all nodes
        for (int r = 0; r < K.rows(); ++r) {
            double sum = 0;
            for (int c = 1; c < K.cols(); c += node_dofs) {
                sum += K(r, c);
            }
            K.row(r).setZero();
            K.col(r).setZero();
            K(r, r) = 1 + std::abs(sum);
        }
        const int nodes = static_cast<int>(K.rows()) / node_dofs;
        for (int i = 0; i < nodes; ++i) {
            for (int j = 0; j < nodes; ++j) {
                K(node_dofs * i + 1, node_dofs * j + 1) = (i == j ? nodes : 0) - 1.0;
            }
        }
    }
    const auto tree = vrid::build_tree(plate.dofs);
    std::vector<char> fixed(plate.unknowns(), 0);
    CHECK_THROWS_AS(vrid::factorise(tree, plate.stiffness(), fixed), vrid::SolveError);
    fixed[1] = 1;
    CHECK_NOTHROW(vrid::factorise(tree, plate.stiffness(), fixed));
}

TEST_CASE("numbering of nodes and elements does not matter; nodes without elements stay at rest") {
    const Plate plate(15, 4, 2);
    Plate shuffled = plate;
    std::vector<int> number(plate.dofs.nodes);
    std::iota(number.begin(), number.end(), 3); // three nodes that no element has come first
    std::shuffle(number.begin(), number.end(), std::mt19937(5));
    shuffled.dofs.nodes += 3;
    for (int& n : shuffled.dofs.node) {
        n = number[n];
    }
    const Eigen::MatrixXd rhs = some_loads(plate.unknowns(), 2);
    Eigen::MatrixXd moved = Eigen::MatrixXd::Ones(shuffled.unknowns(), 2);
    for (int n = 0; n < plate.dofs.nodes; ++n) {
        moved.middleRows<node_dofs>(Eigen::Index{node_dofs} * number[n]) =
            rhs.middleRows<node_dofs>(Eigen::Index{node_dofs} * n);
    }
    const auto solution = [](const Plate& of, const Eigen::MatrixXd& loads) {
        const auto tree = vrid::build_tree(of.dofs);
        const std::vector<char> fixed(of.unknowns(), 0);
        return vrid::solve(vrid::factorise(tree, of.stiffness(), fixed), loads);
    };
    const Eigen::MatrixXd x = solution(plate, rhs);
    const Eigen::MatrixXd y = solution(shuffled, moved);
    CHECK(y.topRows(Eigen::Index{node_dofs} * 3).norm() == 0);
    Eigen::MatrixXd back(x.rows(), x.cols());
    for (int n = 0; n < plate.dofs.nodes; ++n) {
        back.middleRows<node_dofs>(Eigen::Index{node_dofs} * n) =
            y.middleRows<node_dofs>(Eigen::Index{node_dofs} * number[n]);
    }
    CHECK(difference(back, x) < 1e-11);
}
