#include <cstdlib>
#include <filesystem>
#include <string>

#include <sys/wait.h>

#include <catch2/catch.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

/// Exit status of a shell command; what it says goes to the file.
int status_of(const std::string& command, const std::string& said) {
    const int ended = std::system((command + " > " + said + " 2>&1").c_str());
    return WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
}

} // namespace

TEST_CASE("the program starts without the libraries that only a mesh or a field file needs") {
    const TemporaryFolder folder;
    const std::string said = (folder.path() / "said").string();
    // the loader lists what it would load, and runs nothing
    REQUIRE(status_of("LD_TRACE_LOADED_OBJECTS=1 " + std::string(built_program), said) == 0);
    CHECK_THAT(content(said), Contains("libc.so"));
    CHECK_THAT(content(said), !Contains("gmsh") && !Contains("libvtk"));
}

TEST_CASE("a program without its VTK module solves, and says what is missing when it is to write "
          "fields") {
    const TemporaryFolder folder;
    std::filesystem::create_directory(folder.path() / "bin");
    const std::string program = (folder.path() / "bin/vrid").string();
    std::filesystem::copy_file(built_program, program);
    const std::string coupon = std::string(source_dir) + "/examples/coupon-triax/board.toml";
    const std::string said = (folder.path() / "said").string();
    CHECK(status_of(program + " solve " + coupon, said) == 0);
    const std::string out = (folder.path() / "out").string();
    CHECK(status_of(program + " solve " + coupon + " --out " + out, said) == 4);
    CHECK_THAT(content(said), Contains("vrid_vtk.so") && Contains("is not there"));
    CHECK_FALSE(std::filesystem::exists(out + "/result.json"));

    // where an installation has it
    const std::filesystem::path module = built_program;
    REQUIRE(status_of("cmake --install " + module.parent_path().string() + " --prefix " +
                          (folder.path() / "installed").string(),
                      said) == 0);
    const std::string installed = (folder.path() / "installed/bin/vrid").string();
    CHECK(status_of(installed + " solve " + coupon + " --out " + out, said) == 0);
    CHECK(std::filesystem::exists(out + "/board.vtu"));
}
