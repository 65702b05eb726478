#include "io/batch/job.hpp"

#include <string>

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

Suite suite_of(const TestFolder& folder, double thickness) {
    Suite suite;
    suite.file = folder.path() + "/suite.toml";
    suite.boards = {folder.write("board.toml", demo_board_text())};
    suite.variants = {{"", {}}, {"thick base", {{"layer.base.thickness_mm", thickness, ""}}}};
    return suite;
}

} // namespace

TEST_CASE("a variant is judged as it is solved, and with strict it fails alone") {
    const TestFolder folder("plan-jobs");
    const Suite suite = suite_of(folder, 4.5);
    const std::vector<Job> jobs = plan_jobs(suite, {}, shipped_library());
    REQUIRE(jobs.size() == 2);
    CHECK(jobs[0].warnings.empty());
    REQUIRE(jobs[1].warnings.size() == 1);
    CHECK(jobs[1].warnings[0].message.starts_with("layer.base.thickness_mm: the sheet is 4.5 mm"));
    CHECK(jobs[1].error.empty());
    const std::vector<Job> strict = plan_jobs(suite, {}, shipped_library(), true);
    CHECK(strict[0].error.empty());
    CHECK(strict[0].key == jobs[0].key);
    CHECK(strict[1].error.find("the sheet is 4.5 mm") != std::string::npos);
}

TEST_CASE("boards named by absolute paths in a suite named by a relative one keep their names") {
    const TestFolder folder("absolute-boards");
    Suite suite = suite_of(folder, 1.2);
    const std::string file = suite.boards.front();
    suite.variants.pop_back();
    CHECK(plan_jobs(suite, {}, shipped_library()).front().file == "board.toml");
    suite.file = "suite.toml"; // of the working folder
    CHECK(plan_jobs(suite, {}, shipped_library()).front().file == file);
}
