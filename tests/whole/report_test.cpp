// What vrid report makes of damaged folders.
#include <filesystem>
#include <fstream>

#include <sys/stat.h>

#include <catch2/catch.hpp>

#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Catch::Contains;
namespace fs = std::filesystem;

TEST_CASE("a damaged folder is an input error that names the file, whatever the damage") {
    const TemporaryFolder folder;
    const fs::path out = folder.path() / "out";
    REQUIRE(run_program({"solve", "examples/nh-157-querwind/board.toml", "--case", "centre-flex",
                         "--out", out.string()})
                .status == 0);
    const auto refused = [&](const std::string& why) {
        const Run run = run_program({"report", out.string()});
        CHECK(run.status == 2);
        CHECK_THAT(run.err, Contains(why));
    };
    const auto with = [&](const char* file, const std::string& from, const std::string& to,
                          const std::string& why) {
        const std::string before = content(out / file);
        std::string text = before;
        const std::size_t at = text.find(from);
        REQUIRE(at != std::string::npos);
        text.replace(at, from.size(), to);
        std::ofstream(out / file, std::ios::binary) << text;
        refused(why);
        std::ofstream(out / file, std::ios::binary) << before;
    };
    with("drawing.json", "\"feet\":[[", "\"feet\":[[],[",
         "drawing.json: is damaged at /feet/0: found a list of 0");
    with("drawing.json", "\"contact\":[", "\"contact\":[1,", "at /contact: found a list of 3");
    with("stations.csv", "\n", "\n-700\n", "stations.csv:2: is damaged: found 1 cells");
    std::ofstream(out / "result.json", std::ios::binary | std::ios::trunc) << "{\"format\": 1";
    refused("damaged");
    fs::remove(out / "result.json");
    REQUIRE(mkfifo((out / "result.json").c_str(), 0600) == 0);
    refused("result.json: is not a regular file");
    fs::remove(out / "result.json");
    std::ofstream(out / "result.json", std::ios::binary) << "{";
    fs::resize_file(out / "result.json", std::uintmax_t{100} << 20); // sparse
    refused("result.json: is larger than 64 MiB");
}
