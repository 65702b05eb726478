// Options of a solve as typed.
#include "io/verbs/study_arguments.hpp"

#include <sstream>

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

using TypedOptions = std::map<std::string, std::vector<std::string>>;

StudyOptions options_of(const TypedOptions& options) {
    std::ostringstream out;
    Console console{out, out, nullptr, {}};
    Arguments arguments;
    arguments.options = options;
    return study_options(arguments, console);
}

std::string refused_options(const TypedOptions& options) {
    return complaint_of([&] { (void)options_of(options); });
}

} // namespace

TEST_CASE("each option of a solve goes to its own setting, lengths in metres") {
    const StudyOptions plain = options_of({});
    CHECK(plain.degree == 0); // as the solver likes
    CHECK(plain.threads == 0);
    CHECK(plain.max_size == 0);
    CHECK(plain.cases.empty());
    CHECK(plain.bend.empty());
    CHECK_FALSE(plain.rel_error);
    CHECK_FALSE(plain.flat);
    const StudyOptions typed =
        options_of({{"--degree", {"4"}},
                    {"--threads", {"2"}},
                    {"--size-mm", {"62.5"}},
                    {"--rel-error", {"0.2%"}},
                    {"--flat", {""}},
                    {"--case", {"nose-twist", "centre-flex", "nose-twist"}}});
    CHECK(typed.degree == 4);
    CHECK(typed.threads == 2);
    CHECK(typed.max_size == 0.0625);
    CHECK(*typed.rel_error == Approx(0.002));
    CHECK(typed.flat);
    CHECK(typed.cases == std::vector<std::string>{"nose-twist", "centre-flex"});
    CHECK(options_of({{"--case", {"nose-twist", "all"}}}).cases.empty());
}

TEST_CASE("travels are sorted, each once, in metres") {
    CHECK(options_of({{"--bend", {"60,20.5", "20.5", "1000"}}}).bend ==
          std::vector<double>{0.0205, 0.06, 1.0});
    for (const char* wrong : {"0", "-20", "1000.1", "20mm", "20 ", "nan"}) {
        CHECK_THAT(refused_options({{"--bend", {std::string("40,") + wrong}}}),
                   Contains("--bend: found '" + std::string(wrong) + "'; accepted: travels in mm"));
    }
}

TEST_CASE("all that is wrong is told at once, a case with the nearest") {
    const std::string all = refused_options({{"--degree", {"7"}},
                                             {"--threads", {"0"}},
                                             {"--size-mm", {"0.5"}},
                                             {"--rel-error", {"2"}},
                                             {"--case", {"nose-twst"}}});
    CHECK_THAT(all, Contains("--degree: found '7'; accepted: a whole number from 1 to 6") &&
                        Contains("--threads: found '0'") && Contains("--size-mm: found '0.5'") &&
                        Contains("--rel-error: found '2'") &&
                        Contains("--case: no case is named 'nose-twst'; did you mean 'nose-twist'?"
                                 "; accepted: all, "));
}
