// The nightly example's job array under a real Slurm of one node.
#include <cstdlib>
#include <filesystem>

#include <sys/wait.h>

#include <catch2/catch.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;

TEST_CASE("two shards as a Slurm job array and a collect equal one run byte for byte") {
    const TemporaryFolder folder;
    const std::string suite = folder.file(
        "suite.toml", "format = 1\nname = \"test\"\nboards = [\"" + std::string(source_dir) +
                          "/examples/coupon-*/board.toml\"]\ncases = [\"all\"]\n[[variant]]\n"
                          "name = \"softer\"\nset = { \"mass_only.resin_gsm\" = 100 }\n");
    const std::string one = (folder.path() / "one").string();
    const std::string array = (folder.path() / "array").string();
    const std::filesystem::path slurm = folder.path() / "slurm";
    std::filesystem::create_directory(slurm);
    const std::string said = (folder.path() / "said").string();
    const int ended = std::system(
        ("sh " + std::string(source_dir) + "/tests/whole/slurm_batch.sh " + slurm.string() + " " +
         built_program + " " + suite + " " + array + " > " + said + " 2>&1")
            .c_str());
    constexpr int cannot = 77;
    if (WIFEXITED(ended) && WEXITSTATUS(ended) == cannot) {
        WARN("skipped: " << content(said));
        return;
    }
    CAPTURE(content(said));
    REQUIRE(ended == 0);
    REQUIRE(run_program({"batch", suite, "--out", one}).status == 0);
    for (const char* file : {"summary.csv", "summary.json"}) {
        CHECK(content(one + "/" + file) == content(array + "/" + file));
        CHECK_FALSE(content(one + "/" + file).empty());
    }
}
