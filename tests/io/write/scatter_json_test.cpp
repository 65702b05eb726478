#include "io/write/scatter_json.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("a scatter is the same there and back; what is not known stays unknown") {
    ScatterFindings found;
    found.samples = 40;
    found.seed = 18446744073709551615U;
    found.numbers = {{"mass", {4, 0, "kg"}}};
    ScatteredNumber& number = found.numbers[0];
    number.sd = 0.1;
    number.p5 = 3.8;
    number.yield = 0.97;
    number.min = 3.8;
    number.sources = {{"core.density_kgm3", 0.08, 0.64, 0.07, 0.99},
                      {"edge", 0.06, 0.36, 0.08, {}}};
    number.sampled.emplace().sd = 0.12;
    number.sampled->histogram = Histogram{3.8, 0.1, {1, 0, 39}};
    number.controlled.emplace().yield = 0.96;
    number.controlled->yield_error = 0.004;

    const std::string text = json_text(written(found));
    const ScatterFindings back = read_scatter(text, "scatter.json");
    CHECK(json_text(written(back)) == text);
    CHECK(back.seed.value == found.seed.value);
    CHECK(back.numbers[0].first_order().mean == 4);
    CHECK_FALSE(back.numbers[0].max);
    CHECK_FALSE(back.numbers[0].sources[1].yield_if_halved);
    CHECK(back.numbers[0].histogram().counts == std::vector<int>{1, 0, 39});
    CHECK_FALSE(back.numbers[0].controlled->plain_samples);
}
