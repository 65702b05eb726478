#include <filesystem>
#include <ostream>

#include "io/batch/summary.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/staged_files.hpp"

namespace vrid {
namespace {

int run_report(const Arguments& arguments, Console& console) {
    const std::filesystem::path folder = arguments.positional.front();
    const std::string html = folder_report(folder);
    const std::string named = text_of(arguments, "--out");
    const std::filesystem::path path =
        named.empty() ? folder / "report.html" : std::filesystem::path(named);
    write_file(path, html);
    console.out << path.string() << "\n";
    return exit_done;
}

} // namespace

Verb report_verb() {
    return {
        "report",
        "a self-contained HTML page from results",
        "DIR",
        1,
        1,
        "Makes report.html from the folder of a batch, or of vrid solve, strength, edge, sense, "
        "scatter or "
        "lot with --out, into one folder or several, or of the sizes that vrid match wrote; also "
        "from calibration.json, which is what vrid calibrate --json prints. It shows "
        "cross-sections to scale, planform, thickness, EI and GJ along the board, deflection and "
        "twist lines, force and local angle along the edge, "
        "the map over angle, load and snow, where the layup fails first, every number with its "
        "error bar, limits and drift; "
        "what a workshop step changes, how the numbers scatter and by what, the fit to the bench. "
        "One file that needs no network: send it by mail or open it from disk.",
        {{"--out", "FILE", "Write the page here instead of DIR/report.html."}},
        {"vrid report last-night", "vrid report results --out querwind.html"},
        run_report};
}

} // namespace vrid
