#include <random>

#include <catch2/catch.hpp>

#include "io/toml/name_pattern.hpp"

using namespace vrid;

namespace {

// The definition: a star takes no letter or one more.
bool by_definition(std::string_view name, std::string_view pattern) {
    if (pattern.empty()) {
        return name.empty();
    }
    if (pattern[0] == '*') {
        return by_definition(name, pattern.substr(1)) ||
               (!name.empty() && by_definition(name.substr(1), pattern));
    }
    return !name.empty() && pattern[0] == name[0] &&
           by_definition(name.substr(1), pattern.substr(1));
}

} // namespace

TEST_CASE("a pattern's stars stand for any letters, all else for itself") {
    CHECK(fits_pattern("layer.a.b.angle_deg", "layer.*.angle_deg", "*"));
    CHECK(fits_pattern("core.thickness_mm[3]", "*[3]", "*"));
    CHECK_FALSE(fits_pattern("core.thickness_mm3", "*[3]", "*"));
    CHECK(fits_pattern("a?b", "a?b", "*"));
    CHECK_FALSE(fits_pattern("axb", "a?b", "*"));
    CHECK(fits_pattern("axb", "a?b", "*?"));
    CHECK(fits_pattern("a\\*", "a\\*", "*"));
    CHECK_FALSE(fits_pattern("a*", "a\\*", "*"));
    CHECK(fits_pattern(".hidden/x", "*", "*"));
    CHECK(fits_pattern("\xff\xc3", "*\xc3", "*")); // no letters in any code: bytes
    CHECK_FALSE(fits_pattern("", "a", "*"));
}

TEST_CASE("names of few letters fit random patterns as the definition says") {
    std::mt19937 random(7); // NOLINT(cert-msc51-cpp): seeded, so that a failure can be repeated
    const std::string letters = "ab[]\\*";
    const auto word = [&](std::size_t longest) {
        std::string text(random() % (longest + 1), 'a');
        for (char& c : text) {
            c = letters[random() % letters.size()];
        }
        return text;
    };
    int fit = 0;
    for (int i = 0; i < 20000; ++i) {
        const std::string name = word(6);
        const std::string pattern = word(5);
        CAPTURE(name, pattern);
        const bool wanted = by_definition(name, pattern);
        fit += wanted ? 1 : 0;
        REQUIRE(fits_pattern(name, pattern, "*") == wanted);
    }
    CHECK(fit > 500);
}
