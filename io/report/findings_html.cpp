#include "io/report/findings.hpp"

#include <algorithm>

#include "io/report/svg.hpp"

namespace vrid {
namespace {

struct Words {
    std::string id, title, what;
};

struct FindingHead {
    std::string program;
    BoardEntry board;
    std::vector<std::string> warnings{};
    std::string edge{};
};

std::string section(const Words& words, const FindingHead& head, const std::string& hash,
                    const std::string& content) {
    std::string html = "<section aria-labelledby=\"" + words.id + "\"><h2 id=\"" + words.id +
                       "\">" + words.title + "</h2>\n<p>" + words.what + "</p>\n";
    if (!hash.empty() && head.board.hash != hash) {
        html += "<p><span class=\"drift\">Another state of the board:</span> this was found for "
                "content hash " +
                escaped(head.board.hash) + ", the rest of the page is of " + escaped(hash) +
                ".</p>\n";
    }
    html += content + "<dl><dt>board</dt><dd>" + escaped(head.board.name) + "</dd>";
    if (!head.board.file.empty()) {
        html += "<dt>board file</dt><dd>" + escaped(head.board.file_words()) + "</dd>";
    }
    html += "<dt>program</dt><dd>" + escaped(head.program) + "</dd><dt>content hash</dt><dd>" +
            escaped(head.board.hash) + "</dd>";
    if (!head.edge.empty()) {
        html += "<dt>numbers on the edge</dt><dd>" + escaped(head.edge) + "</dd>";
    }
    for (const std::string& warning : head.warnings) {
        html += "<dt>warning</dt><dd>" + escaped(warning) + "</dd>";
    }
    return html + "</dl></section>\n";
}

} // namespace

std::string other_states(const Findings& findings, const std::string& hash) {
    std::string board = hash;
    std::vector<std::string> others;
    const auto look = [&](const char* file, const auto& found) {
        if (!found) {
            return;
        }
        const std::string own = BoardEntry(found->board).hash;
        board = board.empty() ? own : board;
        if (own != board) {
            others.emplace_back(file);
        }
    };
    look("sense.json", findings.sense);
    look("scatter.json", findings.scatter);
    look("calibration.json", findings.calibration);
    look("lot.json", findings.lot);
    look("family.json", findings.family);
    std::string names;
    for (std::size_t i = 0; i < others.size(); ++i) {
        names += (i == 0 ? "" : i + 1 == others.size() ? " and " : ", ") + others[i];
    }
    return names.empty() ? ""
                         : names + (others.size() == 1 ? " is" : " are") +
                               " of another board, or of another state of the file, than the rest "
                               "of the page.";
}

std::string findings_html(const Findings& findings, const std::string& hash) {
    std::string html;
    std::string board = hash; // where there is nothing else, the first finding speaks for the page
    const auto add = [&](const Words& words, const FindingHead& head, const std::string& content) {
        html += section(words, head, board, content);
        board = board.empty() ? head.board.hash : board;
    };
    if (const auto& found = findings.sense) {
        add({"sense", "What a workshop step changes",
             "One step of each design value on its own, the largest change first. The derivatives "
             "are exact; a step the other way changes as much in the other direction."},
            {found->program, found->board, found->warnings, found->edge}, sense_section(*found));
    }
    if (const auto& found = findings.scatter) {
        const std::string samples = found->samples > 0
                                        ? " The histogram shows " + std::to_string(found->samples) +
                                              " boards drawn at random and solved."
                                        : "";
        add({"scatter", "How the numbers scatter",
             "From board to board, each source on its own with its tolerance. The bell curve is to "
             "first order." +
                 samples +
                 " Behind each arrow are the standard deviation and the yield if that source's "
                 "scatter were halved."},
            {found->program, found->board, found->warnings, found->edge}, scatter_section(*found));
    }
    if (const auto& found = findings.calibration) {
        add({"calibration", "What the bench says",
             "Values of the board were changed, each held near its nominal value by its tolerance, "
             "until the computed numbers agreed with the readings."},
            {found->program, found->board, found->warnings}, calibration_section(*found));
    }
    if (const auto& found = findings.lot) {
        add({"lot", "What the lot says",
             std::to_string(found->boards) +
                 " boards in order of time. Points are readings, large ones of boards that do not "
                 "belong; the line is their moving average, the band its limits. A red line marks "
                 "a change, the band around it where it may have begun."},
            {found->program, found->board, found->warnings}, lot_section(*found));
    }
    if (const auto& found = findings.family) {
        add({"family", "The sizes of a family",
             "Boards matched from one approved board, each judged as its file is written: " +
                 std::to_string(std::ranges::count_if(found->sizes, &FoundSize::met)) + " of " +
                 std::to_string(found->sizes.size()) +
                 " sizes meet their targets. Of one that does not, the nearest answer is shown."},
            {found->program, found->board}, family_section(*found));
    }
    return html;
}

} // namespace vrid
