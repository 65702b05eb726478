// The report in a real browser, from the disk, without a network.
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <catch2/catch.hpp>

#include "tests/whole/run_program.hpp"

using namespace vrid::tests;
using Catch::Contains;

namespace {

/// Operates the overlay as a user would and writes what came of it into the page.
const char* const operate = R"(<script>
window.problems=[];window.onerror=function(m){window.problems.push(m);};
window.addEventListener('load',function(){
 var before=document.querySelector('#overlay svg').getAttribute('aria-label');
 var s=document.getElementById('what');s.value='EI_Nm2';s.dispatchEvent(new Event('change'));
 var after=document.querySelector('#overlay svg').getAttribute('aria-label');
 var p=document.createElement('p');p.id='outcome';
 p.textContent='problems '+window.problems.length+'; curves '+
  document.querySelectorAll('#overlay polyline').length+'; rows '+
  document.querySelectorAll('#against tr').length+'; changed '+(before!==after)+'; loaded '+
  performance.getEntriesByType('resource').length;
 document.body.appendChild(p);});
</script>)";

} // namespace

TEST_CASE("a browser opens the report from disk without errors and draws the overlay") {
    if (std::system("command -v chromium >/dev/null 2>&1") != 0) {
        WARN("skipped: chromium is not installed");
        return;
    }
    const TemporaryFolder folder;
    const std::string boards = std::string(VRID_SOURCE_DIR) + "/examples/coupon-*/board.toml";
    const std::string suite =
        folder.file("suite.toml", "format = 1\nname = \"test\"\ncases = [\"all\"]\nboards = [\"" +
                                      boards + "\"]\n");
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program({"batch", suite, "--out", out}).status == 0);
    std::string page = content(out + "/report.html");
    page.insert(page.find("<meta charset"), operate);
    std::ofstream(folder.path() / "page.html") << page;
    const std::string command =
        "chromium --headless --no-sandbox --disable-gpu --host-resolver-rules='MAP * ~NOTFOUND' "
        "--user-data-dir=" +
        (folder.path() / "profile").string() +
        " --virtual-time-budget=3000 "
        "--dump-dom file://" +
        (folder.path() / "page.html").string() + " > " + (folder.path() / "dom").string() +
        " 2> /dev/null";
    REQUIRE(std::system(command.c_str()) == 0);
    CHECK_THAT(content(folder.path() / "dom"),
               Contains("problems 0; curves 2; rows") && Contains("changed true; loaded 0"));
}
