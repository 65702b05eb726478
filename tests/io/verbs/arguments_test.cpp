#include "io/verbs/verb.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

Arguments with(const std::string& name, const std::vector<std::string>& values) {
    Arguments arguments;
    arguments.options[name] = values;
    return arguments;
}

} // namespace

TEST_CASE("a share is typed as a number or in percent") {
    std::vector<Problem> problems;
    CHECK(share_of(with("--rel-error", {"0.001"}), "--rel-error", problems) == 0.001);
    CHECK(*share_of(with("--rel-error", {"0.1%"}), "--rel-error", problems) == Approx(0.001));
    CHECK_FALSE(share_of(Arguments{}, "--rel-error", problems));
    CHECK(problems.empty());
    for (const char* bad : {"", "%", "0", "-1%", "1", "100%", "0.1 %", "x", "nan", "1e999"}) {
        CHECK_FALSE(share_of(with("--rel-error", {bad}), "--rel-error", problems));
    }
    CHECK(problems.size() == 10);
}

TEST_CASE("numbers are read whole, within their range, whatever the locale") {
    const NumberOption at{"--at", -2000, 2000, false};
    const NumberOption degree{"--degree", 1, 6, true};
    std::vector<Problem> problems;
    CHECK(numbers_of(with("--at", {"-270", "+12.5", "0"}), at, problems) ==
          std::vector<double>{-270, 12.5, 0});
    CHECK(number_of(with("--degree", {"6"}), degree, problems) == 6.0);
    CHECK(problems.empty());
    numbers_of(with("--at", {"1,5", "12mm", "2001", "+-1", "inf"}), at, problems);
    number_of(with("--degree", {"2.5"}), degree, problems);
    REQUIRE(problems.size() == 6);
    CHECK(problems[0].place == "--at");
    CHECK_THAT(problems[0].message, Catch::Contains("'1,5'") && Catch::Contains("from -2000"));
    CHECK_THROWS_AS(throw_if_any(problems), InputError);
}

TEST_CASE("an empty name is no folder to write into") {
    CHECK(out_folder(Arguments{}).empty());
    CHECK(out_folder(with("--out", {"results"})) == "results");
    CHECK_THROWS_AS(out_folder(with("--out", {""})), InputError);
}
