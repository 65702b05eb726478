// What the program does where the system is short of memory: it says so, and it ends.
#include <filesystem>
#include <string>

#include <catch2/catch.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

/// Addresses with which the program and its libraries are just loaded [MB].
double least_addresses() {
    double megabytes = 100;
    while (megabytes < 4000 && run_in_addresses({"materials"}, megabytes).status != 0) {
        megabytes += 10;
    }
    return megabytes;
}

} // namespace

TEST_CASE("with too few addresses a solve ends with exit status 3 and says that memory ran out") {
    const double least = least_addresses();
    int refused = 0;
    // 94 thousand unknowns take 1300 MB of addresses on two threads, 256 of them for the dense
    // library's buffers, by measurement: what is between runs out at another step
    for (const double more :
         {0., 30., 60., 90., 120., 150., 200., 260., 350., 500., 650., 800., 950., 2000.}) {
        const Run run = run_in_addresses(
            {"solve", coupon, "--size-mm", "5", "--degree", "4", "--threads", "2"}, least + more);
        CAPTURE(least, more, run.err);
        if (run.status != 0) {
            CHECK(run.status == 3);
            // the mesher's library is loaded when a mesh is wanted, and may be what has no room
            CHECK_THAT(run.err, Contains("memory") || Contains("the library Gmsh"));
            ++refused;
        }
        CHECK((more < 1000 || run.status == 0)); // and with enough of them it is solved
    }
    CHECK(refused > 0);
}

TEST_CASE("a batch takes its memory from the system's limit; what does not fit is a failed row") {
    const TemporaryFolder folder;
    const std::string suite = folder.file(
        "suite.toml", "format = 1\nname = \"test\"\ncases = [\"centre-flex\"]\nboards = [\"" +
                          std::string(source_dir) + "/" + coupon + "\"]\n");
    const double least = least_addresses();
    for (const double more : {20., 2000.}) {
        const std::string out = (folder.path() / std::to_string(more)).string();
        const Run run = run_in_addresses({"batch", suite, "--out", out}, least + more);
        CAPTURE(least, more, run.out, run.err);
        CHECK(run.status == (more < 100 ? 1 : 0));
        if (more < 100) {
            CHECK_THAT(run.out, Contains("memory") || Contains("the library Gmsh"));
        } else {
            CHECK_THAT(run.out, Contains("1 of 1 done"));
        }
    }
}
