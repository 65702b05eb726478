// The story of examples/twist-rig: its README prints these numbers.
#include <cmath>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Json = nlohmann::json;

namespace {

Json fit_of(const std::string& bench, int status, const std::string& threads) {
    const Run run = run_program(
        {"calibrate", querwind, "examples/twist-rig/" + bench, "--json", "--threads", threads});
    INFO(run.err);
    REQUIRE(run.status == status);
    return Json::parse(run.out);
}

Json reading(const Json& fit, const std::string& number) {
    for (const Json& one : fit["readings"]) {
        if (one["number"] == number) {
            return one;
        }
    }
    return {};
}

} // namespace

// Rounding is another with another number of threads, and must not decide whether a fit ends.
TEST_CASE("a rig that reads low is more than four deviations off, whatever the number of threads") {
    const Json fit = fit_of("bench.toml", 1, GENERATE("1", "2"));
    for (const char* number : {"nose-twist", "tail-twist"}) {
        CHECK(reading(fit, number)["residual"].get<double>() < -4);
    }
    CHECK_FALSE(reading(fit, "mass")["fits"].get<bool>());
}

TEST_CASE("without weight on the rig everything else fits within one deviation") {
    const Json fit = fit_of("bench-rig-doubted.toml", 0, "2");
    for (const Json& one : fit["readings"]) {
        INFO(one["number"]);
        CHECK(std::abs(one["residual"].get<double>()) < 1);
    }
    for (const Json& one : fit["values"]) {
        const double moved = one["after"].get<double>() - one["before"].get<double>();
        CHECK(std::abs(moved) < 0.5 * one["prior_sd"].get<double>());
    }
    CHECK(reading(fit, "nose-twist")["after"]["value"].get<double>() == Approx(9.56).margin(0.005));
    CHECK(reading(fit, "tail-twist")["after"]["value"].get<double>() ==
          Approx(12.18).margin(0.006));
}
