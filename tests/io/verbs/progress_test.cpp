#include "io/verbs/verb.hpp"

#include <sstream>

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("progress is a bar on a terminal, wiped at the end, and elsewhere a line every ten "
          "seconds") {
    std::ostringstream out;
    std::ostringstream err;
    double now = 100;
    const Clock clock = [&now] { return now; };
    Console plain{out, err, nullptr, {}};
    const auto told = progress_of(plain, clock);
    for (const double seconds : {0.0, 9.0, 10.5, 11.0, 20.0}) {
        now = 100 + seconds;
        told("samples", seconds / 40);
    }
    CHECK(err.str() == "26 % samples, 30 s left\n"); // at 10.5 s, the next not before 20.5
    wipe_progress(plain);
    now = 121;
    std::function<void(const std::string&, double)> copy = told; // as settings are copied
    copy("samples", 0.53);
    told("samples", 0.53);
    CHECK(err.str() == "26 % samples, 30 s left\n53 % samples, 19 s left\n");
    std::ostringstream screen;
    Console terminal{out, screen, &screen, {}};
    progress_of(terminal)("mesh", 0.5);
    CHECK_THAT(screen.str(), Catch::Contains("50 % mesh"));
    wipe_progress(terminal);
    CHECK(screen.str().ends_with("\r\x1b[K"));
    CHECK(out.str().empty());
}

TEST_CASE("the time left follows the pace of this run and of the work at hand") {
    std::ostringstream out;
    std::ostringstream screen;
    double now = 0;
    Console terminal{out, screen, &screen, {}};
    const auto told = progress_of(terminal, [&now] { return now; });
    told("jobs", 0.5); // half was done by an earlier run
    now = 60;
    told("jobs", 0.6);
    CHECK_THAT(screen.str(), Catch::EndsWith("60 % jobs, 4 min left")); // 0.4 at 0.1 a minute
    told("other", 0.0);
    now = 61;
    told("other", 0.5);
    CHECK_THAT(screen.str(), Catch::EndsWith("50 % other")); // too early to say
    CHECK(duration_text(0) == "1 s");
    CHECK(duration_text(89.2) == "90 s");
    CHECK(duration_text(91) == "2 min");
    CHECK(duration_text(3600 * 3 + 60 * 19.5) == "3 h 20 min");
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
