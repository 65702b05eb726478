// The library as someone else uses it: installed, found by its package file, built against.
#include <cstdlib>
#include <filesystem>
#include <sstream>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

namespace fs = std::filesystem;

// Runs a shell command; its output, whatever the stream.
std::string output_of(const std::string& command, const fs::path& log) {
    const int status = std::system((command + " > " + log.string() + " 2>&1").c_str());
    INFO(command << "\n" << content(log));
    REQUIRE(status == 0);
    return content(log);
}

std::vector<fs::path> files_below(const fs::path& folder, const std::string& extension) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.path().extension() == extension) {
            files.push_back(entry.path());
        }
    }
    return files;
}

} // namespace

TEST_CASE("the installed library builds a program of C++ alone that prints what solve prints") {
    const TemporaryFolder folder;
    const fs::path prefix = folder.path() / "prefix";
    const fs::path log = folder.path() / "log";
    const std::string cmake = cmake_program;
    output_of(cmake + " --install " + std::string(build_dir) + " --prefix " + prefix.string(), log);

    const std::vector<fs::path> headers = files_below(prefix / "include", ".hpp");
    CHECK(headers.size() <= 40);
    std::string each;
    for (const fs::path& header : headers) {
        CHECK(fs::relative(header, prefix / "include").begin()->string() == "vrid");
        each.append(" ").append(header.string());
    }
    output_of(std::string(compiler_program) +
                  " -std=c++20 -fsyntax-only -Wall -Wextra -isystem /usr/include/eigen3 -I " +
                  (prefix / "include").string() + each,
              log); // each readable alone
    for (const fs::path& file : files_below(prefix, ".cmake")) {
        INFO(file);
        CHECK(content(file).find(source_dir) == std::string::npos);
        CHECK(content(file).find(build_dir) == std::string::npos);
        CHECK(content(file).find("/usr/lib") == std::string::npos);
    }

    const fs::path example = prefix / "share/vrid/examples";
    const fs::path build = folder.path() / "consumer";
    output_of(cmake + " -S " + (example / "library").string() + " -B " + build.string() +
                  " -DCMAKE_PREFIX_PATH=" + prefix.string() +
                  " -DCMAKE_CXX_COMPILER=" + std::string(compiler_program),
              log);
    output_of(cmake + " --build " + build.string(), log);
    const std::string board = (example / "nh-157-querwind/board.toml").string();
    std::istringstream printed(output_of((build / "twist_of_a_board").string() + " " + board, log));
    std::string first;
    std::getline(printed, first);

    const auto solved = nlohmann::json::parse(run_program({"solve", board, "--json"}).out);
    const auto& twist = solved["cases"]["nose-twist"]["stiffness"];
    std::istringstream words(first);
    double value = 0;
    double error = 0;
    std::string sign;
    std::string unit;
    words >> value >> sign >> error;
    std::getline(words >> std::ws, unit);
    CHECK(unit == twist["unit"]);
    CHECK(error == Approx(twist["error"].get<double>()).epsilon(0.2)); // rounded up to one digit
    CHECK(std::abs(value - twist["value"].get<double>()) < error / 10);

    double thicker = 0;
    printed >> thicker;
    CHECK(std::abs(thicker - value) > error); // it was set
    std::string path;
    double slope = 0;
    int stations = 0;
    while (printed >> path >> slope) {
        CHECK(path == "core.thickness_mm[" + std::to_string(stations++) + "]");
    }
    CHECK(stations > 3);
}
