// [cure], each key with a value of its own, and the expansions that it asks for.
#include <catch2/catch.hpp>

#include "tests/io/construction_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

// All materials of the coupon with an expansion; `wood` with more keys.
std::string curable(const std::string& cure, const std::string& wood = "") {
    std::string text = construction_text(plain_strips, "");
    for (auto at = text.find("density"); at != std::string::npos;
         at = text.find("density", at + 30)) {
        text.insert(at, "alpha1_1e6K = 5\n");
    }
    text.insert(text.find("E_GPa", text.find("[material.wood]")), wood);
    return text + "[cure]\n" + cure;
}

std::vector<Problem> warned(const std::string& text) {
    return read_named_board({text, "board.toml", ""}, shipped_library()).warnings;
}

bool says(const std::vector<Problem>& warnings, const std::string& what) {
    return std::any_of(warnings.begin(), warnings.end(), [&](const Problem& one) {
        return one.message.find(what) != std::string::npos;
    });
}

} // namespace

TEST_CASE("temperatures stay in degrees Celsius, moisture is a share, a mould is in metres") {
    const Cure cure = *read_text_board(curable("stress_free_C = 82\nroom_C = 21\ncold_C = -15\n"
                                               "moisture_percent = 1.5\n"
                                               "mould_z_mm = [[-200, 5], [10, 1], [190, 6]]\n"))
                           .cure;
    CHECK(cure.stress_free == 82);
    CHECK(cure.room == 21);
    CHECK(cure.cold == -15);
    CHECK(cure.moisture == 0.015);
    REQUIRE(cure.mould);
    CHECK(cure.mould->x == std::vector<double>{-0.2, 0.01, 0.19});
    CHECK(cure.mould->value == std::vector<double>{0.005, 0.001, 0.006});
    const Cure plain = *read_text_board(curable("stress_free_C = 82\n")).cure;
    CHECK(plain.room == 20);
    CHECK(plain.cold == -20);
    CHECK(plain.moisture == 0);
    CHECK_FALSE(plain.mould);
    CHECK_FALSE(read_text_board(construction_text(plain_strips, "")).cure);
}

TEST_CASE(
    "a material without expansion is refused at its own place, or at [cure] if the library's") {
    std::string text = curable("stress_free_C = 80\n");
    const auto at = text.find("alpha1", text.find("[material.sheet]"));
    text.erase(at, text.find('\n', at) + 1 - at);
    const std::string all = complaint_of([&] { (void)read_text_board(text); });
    CHECK_THAT(all,
               Contains("material.sheet") && Contains("alpha1_1e6K") && !Contains("material.wood"));
    const auto line =
        std::count(text.begin(),
                   text.begin() + static_cast<std::ptrdiff_t>(text.find("[material.sheet]")),
                   '\n') +
        1;
    CHECK_THAT(all, Catch::StartsWith("board.toml:" + std::to_string(line) + ":"));
}

TEST_CASE(
    "a shrink beside a warm stress_free_C, and moisture of what does not swell, are doubtful") {
    const std::string swells = "swell1_percent = 0.2\n";
    const std::string moist = "stress_free_C = 80\nmoisture_percent = 2\n";
    CHECK(says(warned(curable(moist)), "moisture_percent changes nothing"));
    CHECK_FALSE(says(warned(curable(moist, swells)), "moisture_percent changes nothing"));
    CHECK_FALSE(says(warned(curable("stress_free_C = 80\n")), "moisture_percent"));
}
