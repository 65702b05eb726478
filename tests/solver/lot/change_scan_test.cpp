#include "solver/lot/change_scan.hpp"

#include <cmath>
#include <random>
#include <utility>

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

TEST_CASE("how far a value moved is least squares from the first board, of a ramp until the last") {
    // without noise u = q f shift: every scan finds the shift, and the first board is sure
    const VectorXd q = numbers({900, 400, 900, 100, 900, 900, 1600, 900});
    for (const bool ramp : {false, true}) {
        CAPTURE(ramp);
        VectorXd f(q.size());
        for (Index i = 0; i < q.size(); ++i) {
            f(i) = i < 3 ? 0 : ramp ? static_cast<double>(i - 2) / 5 : 1;
        }
        f.array() -= q.dot(f) / q.sum();
        const VectorXd u = -2.5 * q.cwiseProduct(f);
        const FirstBoard best = ChangeScan(q).best(u, ramp ? ChangeShape::ramp : ChangeShape::step);
        CHECK(best.first == 3);
        CHECK(best.from == best.to);
        CHECK(best.shift == Approx(-2.5));
        CHECK(best.sd == Approx(1 / std::sqrt((q.array() * f.array().square()).sum())));
    }
}

TEST_CASE("the interval of how far a value moved holds the truth, whatever board was the first") {
    constexpr int lots = 1000;
    const VectorXd q = VectorXd::Ones(40);
    const ChangeScan scan(q);
    std::mt19937_64 random(5);
    std::normal_distribution<double> normal;
    // of a ramp of one deviation the first board alone would hold 88 %
    for (const auto& [shape, shift] :
         {std::pair(ChangeShape::step, 2.5), {ChangeShape::ramp, 1.0}}) {
        int held = 0;
        for (int lot = 0; lot < lots; ++lot) {
            const Index first = 8 + lot % 25;
            VectorXd u(40);
            for (Index i = 0; i < 40; ++i) {
                const double rise =
                    shape == ChangeShape::step ? 1 : (i - first + 1.0) / (40 - first);
                u(i) = normal(random) + (i < first ? 0 : shift * rise);
            }
            u.array() -= u.mean();
            const FirstBoard best = scan.best(u, shape);
            held += std::abs(best.shift - shift) < 1.959964 * best.sd ? 1 : 0;
        }
        CAPTURE(static_cast<int>(shape));
        CHECK(held > 0.92 * lots);
        CHECK(held < 0.98 * lots);
    }
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
