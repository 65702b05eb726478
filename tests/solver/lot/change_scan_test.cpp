#include "solver/lot/change_scan.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Index;
using Eigen::VectorXd;

namespace {

VectorXd numbers(std::initializer_list<double> values) {
    VectorXd v(static_cast<Index>(values.size()));
    std::copy(values.begin(), values.end(), v.begin());
    return v;
}

// The chi-square that a change of this shape from board c on gains: weighted least squares of
// u / q against f about its weighted mean.
double gained(const VectorXd& q, const VectorXd& u, Index c, bool ramp) {
    VectorXd f(q.size());
    for (Index i = 0; i < q.size(); ++i) {
        f(i) = i < c ? 0 : ramp ? static_cast<double>(i - c + 1) : 1;
    }
    f.array() -= q.dot(f) / q.sum();
    const double square = (q.array() * f.array().square()).sum();
    return square > 1e-12 ? std::pow(f.dot(u), 2) / square : 0;
}

} // namespace

TEST_CASE("a scan's gains are those of least squares, board by board and shape by shape") {
    const VectorXd q = numbers({1, 0, 2, 0.5, 3, 0, 1.5});
    const VectorXd u = numbers({0.3, 0, -2, 1, 4, 0, -0.7});
    const ChangeScan scan(q);
    const VectorXd step = scan.gains(u, ChangeShape::step);
    const VectorXd ramp = scan.gains(u, ChangeShape::ramp);
    double largest = 0;
    CHECK(step(0) == 0); // from the first board on: no change at all
    for (Index c = 1; c < 7; ++c) {
        CAPTURE(c);
        CHECK(step(c) == Approx(gained(q, u, c, false)).margin(1e-12));
        CHECK(ramp(c) == Approx(gained(q, u, c, true)).margin(1e-12));
        largest = std::max({largest, step(c), ramp(c)});
    }
    CHECK(scan.largest(u) == Approx(largest));
    // a board that does not see the value, alone behind all others, tells nothing
    CHECK(ChangeScan(numbers({1, 2, 0})).gains(numbers({1, -1, 0}), ChangeShape::step)(2) == 0);
    CHECK(ChangeScan(numbers({0, 0, 0})).largest(numbers({0, 0, 0})) == 0);
}

TEST_CASE("the best first board is that of the largest gain, its range all within 3.84 of it") {
    const FirstBoard best = first_board(numbers({0, 6, 1, 9, 10, 6.2, 3}));
    CHECK(best.G2 == 10);
    CHECK(best.first == 4);
    CHECK(best.from == 3);
    CHECK(best.to == 5);
    const FirstBoard alone = first_board(numbers({0, 1, 8, 1}));
    CHECK(alone.from == 2);
    CHECK(alone.to == 2);
}
