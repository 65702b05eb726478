// The report in a real browser, from the disk, without a network.
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <catch2/catch.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

/// Operates the overlay, if there is one, as a user would and writes what came of it into the page.
const char* const operate = R"(<script>
window.problems=[];window.onerror=function(m){window.problems.push(m);};
window.addEventListener('load',function(){
 var shown=function(){return document.querySelector('#overlay svg').getAttribute('aria-label');};
 var s=document.getElementById('what'),before=s&&shown(),after=before,flat=0,edge=[];
 var choose=function(v){s.value=v;s.dispatchEvent(new Event('change'));};
 if(s){choose('EI_Nm2');after=shown();flat=document.querySelectorAll('#overlay polyline').length;
 edge=[].filter.call(s.options,function(o){return o.value.indexOf('edge force')===0;});
 choose(edge[0].value);}
 var pictures=[].slice.call(document.querySelectorAll('svg[role=img]'));
 var nameless=pictures.filter(function(v){var l=(v.getAttribute('aria-labelledby')||'').split(' ');
  return !v.getAttribute('aria-label')&&!l.every(function(i){var e=document.getElementById(i);
   return e&&e.textContent.length>3;});}).length;
 var ids={},twice=0;document.querySelectorAll('[id]').forEach(function(e){
  twice+=ids[e.id]?1:0;ids[e.id]=1;});
 var unreached=[].filter.call(document.querySelectorAll('.scroll'),function(e){
  return e.tabIndex!==0||!e.getAttribute('aria-label');}).length;
 var charts=document.querySelectorAll('svg .curve').length,tables=0;
 document.querySelectorAll('details').forEach(function(d){
  d.querySelector('summary').click();tables+=d.open&&d.querySelectorAll('tbody tr').length>0;});
 var p=document.createElement('p');p.id='outcome';
 p.textContent='problems '+window.problems.length+'; curves '+flat+' '+
  document.querySelectorAll('#overlay polyline').length+'; changed '+(before!==after)+
  '; edge curves '+edge.length+'; nameless '+nameless+'; twice '+twice+'; unreached '+unreached+
  '; broken '+/NaN|Infinity|undefined/.test(document.body.innerHTML.replace(/<script[^]*/,''))+
  '; wide '+(document.documentElement.scrollWidth>window.innerWidth)+
  '; loaded '+performance.getEntriesByType('resource').length+'; tables '+tables+';';
 document.body.appendChild(p);});
</script>)";

/// What `operate` found in page.html of the folder in a window of that size.
std::string outcome_at(const std::filesystem::path& folder, const std::string& size) {
    const std::string command =
        "chromium --headless --no-sandbox --disable-gpu --host-resolver-rules='MAP * ~NOTFOUND' "
        "--user-data-dir=" +
        (folder / "profile").string() + " --window-size=" + size +
        " --virtual-time-budget=3000 --dump-dom file://" + (folder / "page.html").string() + " > " +
        (folder / "dom").string() + " 2> /dev/null";
    if (std::system(command.c_str()) != 0) {
        return "the browser failed";
    }
    const std::string dom = content(folder / "dom");
    const std::size_t outcome = dom.rfind("id=\"outcome\"");
    return outcome == std::string::npos ? "no outcome" : dom.substr(outcome, 300);
}

/// The page of the folder in a desk's and a telephone's window.
void check_page(const std::filesystem::path& folder, std::string page, const std::string& outcome) {
    page.insert(page.find("<meta charset"), operate);
    std::ofstream(folder / "page.html") << page;
    for (const char* width : {"1280,900", "520,900"}) {
        CAPTURE(width);
        CHECK_THAT(outcome_at(folder, width), Contains(outcome));
    }
}

bool has_browser() {
    const bool found = std::system("command -v chromium >/dev/null 2>&1") == 0;
    if (!found) {
        WARN("skipped: chromium is not installed");
    }
    return found;
}

} // namespace

TEST_CASE("a browser opens the report from disk without errors and draws the overlay") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const std::string boards = std::string(source_dir) + "/examples/nh-154-*/board.toml";
    const std::string suite = folder.file(
        "suite.toml",
        "format = 1\nname = \"test\"\ncases = [\"centre-flex\", \"nose-twist\"]\nboards = [\"" +
            boards +
            "\"]\n[edge]\nangle_deg = [45]\nforce_N = [800]\n"
            "hardness_Npmm3 = [0.5]\n[[variant]]\nname = \"softer\"\n"
            "set = { \"core.thickness_scale\" = 0.97 }\n");
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program({"batch", suite, "--out", out}).status == 0);
    check_page(folder.path(), content(out + "/report.html"),
               "problems 0; curves 2 2; changed true; edge curves 1; nameless 0; twice 0; "
               "unreached 0; broken false; wide false; loaded 0; tables 8;");
}

TEST_CASE("a browser opens a report of sense, scatter and calibrate without errors") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const std::string board = "examples/coupon-sandwich/board.toml";
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program({"sense", board, "--of", "mass,EI@0", "--out", out}).status == 0);
    REQUIRE(
        run_program({"scatter", board, "--of", "mass", "--samples", "100", "--out", out}).status ==
        0);
    const std::string bench = folder.file(
        "bench.toml", "format = 1\n[[reading]]\nnumber = \"mass\"\nvalue = 0.41\nsd = 0.002\n"
                      "[[free]]\nvalue = \"material.epoxy.density_kgm3\"\n");
    std::ofstream(out + "/calibration.json")
        << run_program({"calibrate", board, bench, "--json"}).out;
    REQUIRE(run_program({"report", out}).status == 0);
    check_page(folder.path(), content(out + "/report.html"),
               "nameless 0; twice 0; unreached 0; broken false; wide false; loaded 0; tables 7;");
    std::ofstream(out + "/scatter.json") << "{";
    const Run run = run_program({"report", out});
    CHECK(run.status == 2);
    CHECK_THAT(run.err, Contains("scatter.json: is damaged"));
}

TEST_CASE("a browser opens the report of a family without errors") {
    if (!has_browser()) {
        return;
    }
    const TemporaryFolder folder;
    const std::string goal = folder.file(
        "goal.toml", "[[size]]\nname = \"A\"\n[[size]]\nname = \"B\"\nset = { "
                     "\"planform.running_length_mm\" = 1100 }\n[[target]]\nnumber = \"mass\"\n"
                     "same_as = \"approved\"\nwithin_percent = 1\n[[free]]\n"
                     "value = \"core.thickness_scale\"\nmin = 0.8\nmax = 1.2\n");
    const std::string out = (folder.path() / "sizes").string();
    REQUIRE(run_program({"match", "examples/nh-154-kieselbach/board.toml", goal, "--out", out})
                .status == 0);
    REQUIRE(run_program({"report", out}).status == 0);
    check_page(folder.path(), content(out + "/report.html"),
               "nameless 0; twice 0; unreached 0; broken false; wide false; loaded 0; tables 4;");
}
