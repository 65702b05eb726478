#include "solver/lot/plan.hpp"

#include <cmath>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

namespace {

// Independent numbers, each of a value of its own (deviation 1), and one that nothing moves.
LotModel own_values(const std::vector<double>& slopes) {
    const auto count = static_cast<Index>(slopes.size());
    LotModel model;
    model.mean = VectorXd::Zero(count);
    model.slopes = MatrixXd::Zero(count, count + 1);
    for (Index k = 0; k < count; ++k) {
        model.slopes(k, k) = slopes[static_cast<std::size_t>(k)];
    }
    model.value_sd = VectorXd::Ones(count + 1);
    model.rig_sd = VectorXd::Ones(count);
    model.bias_sd = VectorXd::Zero(count);
    model.group.assign(static_cast<std::size_t>(count) + 1, 0);
    model.groups = 1;
    for (Index j = count; j >= 0; --j) { // in an order of their own
        model.free.push_back(j);
    }
    return model;
}

} // namespace

TEST_CASE("boards needed are those of a published example") {
    // NIST/SEMATECH e-Handbook 7.2.2.2 (from memory): one side, 0.05 and 0.10, shift of one sd
    CHECK(readings_needed(1, 0.05, 0.10) == Approx(8.56385).margin(5e-6));
    CHECK(readings_needed(0.5, 0.05, 0.10) == Approx(4 * 8.56385).margin(2e-5));
}

TEST_CASE("a value of its own number needs (1 + 1 / s^2) times the boards of a sure reading") {
    // a board scatters by s^2 + 1 about a shift of s; error 0.05 both sides, power 0.9: 10.507
    const LotModel model = own_values({2, 0.5});
    const auto needed = boards_needed(model);
    REQUIRE(needed.size() == 2); // the value that no number sees is left out
    CHECK(needed[0].value == 1);
    CHECK(needed[0].alone == std::ceil(10.507 * 5));
    CHECK(needed[1].value == 0);
    CHECK(needed[1].alone == std::ceil(10.507 * 1.25));
    REQUIRE(needed[0].all); // nothing else can mimic it
    CHECK(*needed[0].all == needed[0].alone);
    LotModel twins = own_values({2});
    twins.slopes(0, 1) = 2; // two values that do the same
    REQUIRE(boards_needed(twins).size() == 2);
    CHECK_FALSE(boards_needed(twins)[0].all);
}

TEST_CASE("the strongest values come first, as many as are asked for") {
    const LotModel model = own_values({1, 3, 2});
    CHECK(strongest_values(model, 2) == std::vector<Index>{1, 2});
    CHECK(strongest_values(model, 9) == std::vector<Index>{1, 2, 0, 3});
}

TEST_CASE("a further reading is worth what it takes off the variance of the shifts") {
    // 40 boards: a value has q = s^2 / (1 + s^2) a board, its variance is 1 / (1 + 40 q)
    const LotModel model = own_values({2, 0.5});
    Candidates candidates;
    candidates.slopes = MatrixXd::Zero(2, 3);
    candidates.slopes(0, 2) = 3; // sees what nothing sees yet
    candidates.slopes(1, 1) = 0.1;
    candidates.rig_sd = VectorXd::Ones(2);
    const auto left = [](double q) { return 1 / (1 + 40 * q); };
    const auto next = next_readings(model, candidates, {});
    REQUIRE(next.size() == 4);
    CHECK(next[0].readings.empty());
    CHECK(next[0].D == 0);
    CHECK(next[0].A == Approx(left(0.8) + left(0.2) + 1));
    // both together first, then the one that sees something new
    CHECK(next[1].readings == std::vector<Index>{0, 1});
    CHECK(next[2].readings == std::vector<Index>{0});
    CHECK(next[2].A == Approx(left(0.8) + left(0.2) + left(0.9)));
    CHECK(next[2].D == Approx(-std::log(left(0.9))));
    // two readings of one value, noises 1 and slopes 0.5 and 0.1: u = 0.26, q = u / (1 + u)
    CHECK(next[3].readings == std::vector<Index>{1});
    CHECK(next[3].A == Approx(left(0.8) + left(0.26 / 1.26) + 1));
    // only the shift of value 1 asked for
    const auto one = next_readings(model, candidates, {40, {1}, {}});
    CHECK(one[0].A == Approx(left(0.2)));
    CHECK(one[1].A == Approx(left(0.26 / 1.26)));
    CHECK(one[1].D == Approx(std::log(left(0.2) / left(0.26 / 1.26))));
    // rivals: the variance of their difference, the least first
    const auto apart = next_readings(model, candidates, {40, {}, std::pair<Index, Index>{0, 2}});
    REQUIRE(apart[0].rivals);
    CHECK(*apart[0].rivals == Approx(left(0.8) + 1));
    CHECK(*apart[1].rivals == Approx(left(0.8) + left(0.9)));
    CHECK(apart.back().readings == std::vector<Index>{1});
    LotModel twins = own_values({2});
    twins.slopes(0, 1) = -2; // does the opposite: nothing parts one's rise from the other's fall
    const auto none = next_readings(twins, {MatrixXd::Zero(1, 2), VectorXd::Ones(1)},
                                    {40, {}, std::pair<Index, Index>{0, 1}});
    CHECK(*none[0].rivals == Approx(2));
}
