#include "solver/system/dense_front.hpp"

#include <cmath>
#include <vector>

#include <Eigen/Dense>
#include <catch2/catch.hpp>

namespace {

Eigen::MatrixXd positive_matrix(int n) {
    std::srand(n);
    const Eigen::MatrixXd a = Eigen::MatrixXd::Random(n, n);
    return a * a.transpose() + Eigen::MatrixXd::Identity(n, n);
}

} // namespace

TEST_CASE("factored columns solve their block and leave its Schur complement") {
    for (const int k : {1, 15, 16, 17, 33, 128, 150, 300}) {
        for (const int m : {0, 3, 70, 400}) {
            CAPTURE(k, m);
            const int n = k + m;
            const Eigen::MatrixXd K = positive_matrix(n);
            Eigen::MatrixXd panel = K.leftCols(k);
            const std::vector<double> floor(k, 0.0);
            std::vector<double> work(static_cast<std::size_t>(n) * vrid::diagonal_block);
            CHECK(vrid::factor_columns(panel.data(), n, k, floor.data(), work.data()).column == -1);

            const Eigen::MatrixXd b = Eigen::MatrixXd::Random(k, 19);
            Eigen::MatrixXd x = b;
            vrid::solve_lower(panel.data(), n, k, x.data(), k, 19);
            vrid::solve_lower_transposed(panel.data(), n, k, x.data(), k, 19);
            CHECK((K.topLeftCorner(k, k) * x - b).norm() < 1e-10 * b.norm());

            Eigen::MatrixXd rest = K.bottomRightCorner(m, m);
            vrid::subtract_square(rest.data(), m, panel.data() + k, n, k);
            const Eigen::MatrixXd schur =
                K.bottomRightCorner(m, m) -
                K.bottomLeftCorner(m, k) *
                    K.topLeftCorner(k, k).llt().solve(K.topRightCorner(k, m));
            const Eigen::MatrixXd error = (rest - schur).triangularView<Eigen::Lower>();
            CHECK(error.norm() <= 1e-11 * K.norm());
        }
    }
}

TEST_CASE("the first pivot that is not above its floor is told") {
    constexpr int n = 60;
    Eigen::MatrixXd K = positive_matrix(n);
    Eigen::MatrixXd panel = K;
    std::vector<double> work(static_cast<std::size_t>(n) * vrid::diagonal_block);
    std::vector<double> floor(n, 0.0);
    panel(37, 37) = -1;
    const vrid::BadPivot bad = vrid::factor_columns(panel.data(), n, n, floor.data(), work.data());
    CHECK(bad.column == 37);
    CHECK(bad.value < -1);
    panel = K;
    floor[20] = 1e9;
    CHECK(vrid::factor_columns(panel.data(), n, n, floor.data(), work.data()).column == 20);
    panel = K;
    panel(5, 5) = std::nan("");
    CHECK(vrid::factor_columns(panel.data(), n, n, floor.data(), work.data()).column == 5);
}
