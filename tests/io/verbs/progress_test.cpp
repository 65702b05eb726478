#include "io/verbs/progress.hpp"

#include <sstream>

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("progress is drawn on a terminal only, and wiped at the end") {
    std::ostringstream out;
    std::ostringstream err;
    Console plain{out, err, nullptr, {}};
    progress_of(plain)("mesh", 0.5);
    wipe_progress(plain);
    CHECK(err.str().empty());
    Console terminal{out, err, &err, {}};
    progress_of(terminal)("mesh", 0.5);
    CHECK_THAT(err.str(), Catch::Contains("50 % mesh"));
    wipe_progress(terminal);
    CHECK(err.str().ends_with("\r\x1b[K"));
    CHECK(out.str().empty());
}

TEST_CASE("a cancel is thrown at the next step") {
    std::ostringstream out;
    bool stop = false;
    Console console{out, out, nullptr, [&stop] { return stop; }};
    const auto progress = progress_of(console);
    CHECK_NOTHROW(progress("mesh", 0));
    stop = true;
    CHECK_THROWS_AS(progress("solve", 0.1), Cancelled);
}
