#include <chrono>
#include <ctime>
#include <string>

#include <catch2/catch.hpp>

#include "tests/asserted.hpp"
#include "tests/fuzz/mutation.hpp"
#include "tests/fuzz/readers.hpp"

using namespace vrid::tests;

namespace {

double processor_seconds() {
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

struct Tally {
    int read = 0, refused = 0;
};

constexpr int inputs_a_reader = few_with_asserts(500);
#ifdef NDEBUG
constexpr double slow = 5; // seconds of processor time
#else
// With asserts and sanitizers each takes ten to thirty times as long.
constexpr double slow = 60;
#endif

// Seeded and bounded: the same inputs everywhere. A fault is reported with the text that shows it.
Tally read_changed_texts(const Reader& reader, int inputs) {
    std::mt19937 random(20261128); // NOLINT(cert-msc51-cpp)
    const std::vector<std::string> seeds = reader.seeds();
    Tally tally;
    for (int i = 0; i < inputs; ++i) {
        const std::string text = mutated(seeds[random() % seeds.size()], random);
        const double before = processor_seconds();
        try {
            ++(reader.read(text) ? tally.read : tally.refused);
        } catch (const std::exception& fault) {
            FAIL_CHECK(reader.name << ", input " << i << ": " << fault.what() << "\n" << text);
        }
        if (processor_seconds() - before > slow) {
            FAIL_CHECK(reader.name << ", input " << i << " takes more than " << slow << " s\n"
                                   << text);
        }
    }
    return tally;
}

} // namespace

TEST_CASE("what a reader starts from is read, or refused with a reason") {
    for (const Reader& reader : readers()) {
        REQUIRE_FALSE(reader.seeds().empty());
        for (const std::string& seed : reader.seeds()) {
            CAPTURE(reader.name, seed);
            CHECK_NOTHROW(reader.read(seed));
        }
    }
}

TEST_CASE("files changed at random are read or refused, and nothing else happens") {
    for (const Reader& reader : readers()) {
        const Tally tally = read_changed_texts(reader, inputs_a_reader);
        CAPTURE(reader.name, tally.read, tally.refused);
        CHECK(tally.read > inputs_a_reader / 10); // most changes must get past the parser,
        CHECK(tally.refused > inputs_a_reader / 10);
    }
}
