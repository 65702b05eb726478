#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "io/materials/tolerances.hpp"
#include "io/write/number_name.hpp"
#include "solver/design/scatter.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;
using Kind = NumberId::Kind;

TEST_CASE("shares of a normal distribution are those of the tables") {
    // NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.1: 0.5 + 0.34134 at 1 sd,
    // 0.5 + 0.47725 at 2
    CHECK(normal_share(3, 2, {std::nullopt, 5}) == Approx(0.84134).margin(5e-6));
    CHECK(normal_share(3, 2, {1, 7}) == Approx(0.34134 + 0.47725).margin(1e-5));
    CHECK(normal_share(3, 0, {1, 7}) == 1);
}

TEST_CASE("sampled boards scatter as the derivatives say, to the accuracy of the samples") {
    const Board board = example("nh-157-querwind");
    const std::vector<NumberId> requests{request(Kind::mass), request(Kind::EI, 0),
                                         request(Kind::GJ, -0.27)};
    std::vector<Tolerance> tolerances = tolerances_of(board, library());
    for (Tolerance& tolerance : tolerances) {
        tolerance.sd /= 4; // small enough for the response to be straight
    }
    Session session(board);
    const NumberScatter free =
        first_order_scatter(session, {requests[1]}, {{}}, tolerances).numbers.front();
    const double limit = free.nominal.quantity.value - free.sd; // 84 % are above
    Scatter scatter =
        first_order_scatter(session, requests, {{}, {limit, std::nullopt}, {}}, tolerances);
    const int count = 500;
    const auto draw = [&](const SetValues& set) { return with_values(board, set, library()); };
    add_samples(scatter, session, tolerances, draw, {count, 11});
    for (const NumberScatter& number : scatter.numbers) {
        INFO(number_name(number.nominal.request));
        // three standard errors of a deviation and of a mean
        CHECK(std::abs(number.sampled_sd / number.sd - 1) < 3 / std::sqrt(2.0 * count));
        CHECK(std::abs(number.sampled_mean - number.nominal.quantity.value) <
              3 * number.sd / std::sqrt(double(count)));
        double shares = 0;
        for (const SourceShare& share : number.shares) {
            shares += share.share;
        }
        CHECK(shares == Approx(1).epsilon(1e-12));
    }
    const NumberScatter& EI = scatter.numbers[1];
    REQUIRE(EI.yield);
    const double error = std::sqrt(*EI.yield * (1 - *EI.yield) / count);
    CHECK(std::abs(*EI.sampled_yield - *EI.yield) < 3 * error);
}

TEST_CASE("a hand that lays a ribbon to 4 mm scatters the mass by its weight along both ends") {
    Board board = example("nh-157-querwind");
    board.tolerance["layer.ribbon.zone.x_mm"] = {4, false, ""};
    std::vector<Tolerance> tolerances = tolerances_of(board, library());
    std::erase_if(tolerances, [](const Tolerance& one) { return !one.value.kind->moves_lines; });
    REQUIRE(tolerances.size() == 2);
    Session session(board);
    const Scatter scatter = first_order_scatter(session, {request(Kind::mass)}, {{}}, tolerances);
    // left and right a band of 30 mm: fibres, and the resin beside them
    const Fabric& cloth = board.fabrics.at("carbon-ud-300");
    const double fibres =
        cloth.fibre_volume_fraction * board.materials.at("carbon-standard").density;
    const double resin = (1 - cloth.fibre_volume_fraction) * board.materials.at("epoxy").density;
    const double along = 2 * 0.03 * 0.3 * (1 + resin / fibres); // kg/m
    REQUIRE(scatter.sources.size() == 1);                       // both ends together
    CHECK(scatter.numbers[0].sd == Approx(along * 4e-3 * std::sqrt(2.0)).epsilon(1e-4));
}

TEST_CASE("halving a tolerance does what the table promised") {
    // a source is one value of a material or a layer, and all stations of a core together
    for (const std::string name : {"coupon-sandwich", "nh-157-querwind"}) {
        const Board board = example(name);
        const std::vector<NumberId> requests{request(Kind::GJ, 0)};
        const std::vector<Tolerance> tolerances = tolerances_of(board, library());
        const std::vector<DesignValue> values = design_board(board).values;
        Session session(board);
        const Scatter before = first_order_scatter(session, requests, {{}}, tolerances);
        REQUIRE(before.numbers.front().shares.size() > 3);
        for (const SourceShare& share : before.numbers.front().shares) {
            std::vector<Tolerance> halved = tolerances;
            for (const std::size_t i : before.sources[share.source].values) {
                const auto one =
                    std::find_if(halved.begin(), halved.end(), [&](const Tolerance& tolerance) {
                        return tolerance.value == values[i].id;
                    });
                REQUIRE(one != halved.end());
                one->sd /= 2;
            }
            const Scatter after = first_order_scatter(session, requests, {{}}, halved);
            CAPTURE(name, path_of(before.sources[share.source].id));
            CHECK(after.numbers.front().sd == Approx(share.sd_if_halved).epsilon(1e-12));
        }
    }
}

TEST_CASE("samples are the same whatever the number of threads") {
    const Board board = example("coupon-triax");
    const std::vector<NumberId> requests{request(Kind::EI, 0)};
    const std::vector<Tolerance> tolerances = tolerances_of(board, library());
    const auto draw = [&](const SetValues& set) { return with_values(board, set, library()); };
    std::vector<std::vector<double>> sampled;
    for (const int threads : {1, 2}) {
        Settings settings;
        settings.threads = threads;
        Session session(board, settings);
        Scatter scatter = first_order_scatter(session, requests, {{}}, tolerances);
        add_samples(scatter, session, tolerances, draw, {8, 3});
        sampled.push_back(scatter.numbers.front().sampled);
    }
    CHECK(sampled[0] == sampled[1]);
}
