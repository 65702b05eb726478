#include "solver/system/front_assembly.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::MatrixXd;

namespace {

// A front of k + m rows with its memory, and what it holds as a whole lower triangle.
struct WholeFront {
    int k, m;
    std::vector<double> panel, rest, diagonal;
    WholeFront(int eliminated, int handed_on)
        : k(eliminated), m(handed_on), panel(static_cast<std::size_t>((k + m) * k), 0.0),
          rest(static_cast<std::size_t>(m * m), 0.0),
          diagonal(static_cast<std::size_t>(k + m), 0.0) {}
    FrontAssembly view() { return {k, m, panel.data(), rest.data(), diagonal.data()}; }
    MatrixXd lower() {
        MatrixXd all = MatrixXd::Zero(k + m, k + m);
        for (int c = 0; c < k + m; ++c) {
            for (int r = c; r < k + m; ++r) {
                all(r, c) = view().column(c)[r];
            }
        }
        return all;
    }
};

MatrixXd some_symmetric(int size) {
    const MatrixXd A = MatrixXd::NullaryExpr(size, size, [](Eigen::Index i, Eigen::Index j) {
        return std::sin(1 + 2.0 * static_cast<double>(i) + 0.3 * static_cast<double>(j * j));
    });
    return A + A.transpose();
}

bool same_runs(const std::vector<Run>& a, const std::vector<Run>& b) {
    return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](Run p, Run q) {
               return p.from == q.from && p.to == q.to && p.length == q.length;
           });
}

} // namespace

TEST_CASE("rows of a front: free pivots, then all of the boundary, fixed or not") {
    EliminationFront front;
    front.pivots = {2, 0};
    front.boundary = {1};
    std::vector<char> fixed(15, 0);
    fixed[11] = fixed[3] = fixed[6] = 1; // of nodes 2, 0 and 1
    std::vector<int> row;
    number_front_rows(front, fixed, row);
    CHECK(row == std::vector<int>{0, -1, 1, 2, 3, 4, 5, 6, -1, 7, 8, 9, 10, 11, 12});
}

TEST_CASE("rows that follow each other on both sides are one run") {
    std::vector<Run> runs;
    find_runs({3, 4, -1, 5, 6, 0, 1, 9}, runs);
    CHECK(same_runs(runs, {{0, 3, 2}, {3, 5, 2}, {5, 0, 2}, {7, 9, 1}}));
    find_runs({-1, -1}, runs);
    CHECK(runs.empty());
}

TEST_CASE("an element is added at its rows, wherever they are, its diagonal summed beside") {
    WholeFront front(3, 3);
    const MatrixXd K = some_symmetric(6);
    const std::vector<int> row{4, 5, -1, 1, 0, 3}; // the third is fixed, row 2 untouched
    std::vector<Run> runs;
    find_runs(row, runs);
    add_element(front.view(), K, runs);
    add_element(front.view(), K, runs);
    MatrixXd wanted = MatrixXd::Zero(6, 6);
    Eigen::VectorXd diagonal = Eigen::VectorXd::Zero(6);
    for (int i = 0; i < 6; ++i) {
        for (int j = 0; j < 6; ++j) {
            if (row[static_cast<std::size_t>(i)] >= 0 && row[static_cast<std::size_t>(j)] >= 0 &&
                row[static_cast<std::size_t>(i)] >= row[static_cast<std::size_t>(j)]) {
                wanted(row[static_cast<std::size_t>(i)], row[static_cast<std::size_t>(j)]) +=
                    2 * K(i, j);
            }
        }
        if (row[static_cast<std::size_t>(i)] >= 0) {
            diagonal(row[static_cast<std::size_t>(i)]) += 2 * K(i, i);
        }
    }
    CHECK((front.lower() - wanted).norm() < 1e-14);
    CHECK((Eigen::Map<Eigen::VectorXd>(front.diagonal.data(), 6) - diagonal).norm() < 1e-14);
}

TEST_CASE("what a child hands on is added at its rows, with the sums of its diagonals") {
    WholeFront front(3, 4);
    const MatrixXd S = some_symmetric(5);
    std::vector<double> handed(handed_size(5), 0.0);
    REQUIRE(handed.size() == 30);
    for (int c = 0; c < 5; ++c) {
        for (int r = 0; r < 5; ++r) {
            handed[static_cast<std::size_t>(5 * c + r)] = r >= c ? S(r, c) : 1e9; // not read
        }
        handed[static_cast<std::size_t>(25 + c)] = 10 + c;
    }
    const std::vector<int> row{0, 2, -1, 3, 6}; // rising; a fixed pivot is left out
    std::vector<Run> runs;
    find_runs(row, runs);
    add_child(front.view(), handed.data(), 5, runs);
    MatrixXd wanted = MatrixXd::Zero(7, 7);
    Eigen::VectorXd diagonal = Eigen::VectorXd::Zero(7);
    for (int c = 0; c < 5; ++c) {
        const int to = row[static_cast<std::size_t>(c)];
        for (int r = c; r < 5 && to >= 0; ++r) {
            if (row[static_cast<std::size_t>(r)] >= 0) {
                wanted(row[static_cast<std::size_t>(r)], to) = S(r, c);
            }
        }
        if (to >= 0) {
            diagonal(to) = 10 + c;
        }
    }
    CHECK((front.lower() - wanted).norm() < 1e-14);
    CHECK((Eigen::Map<Eigen::VectorXd>(front.diagonal.data(), 7) - diagonal).norm() < 1e-14);
}
