#include "io/batch/summary.hpp"

#include <algorithm>

#include "io/batch/file_bytes.hpp"
#include "io/batch/folder_results.hpp"
#include "io/batch/job.hpp"
#include "io/report/strength_pictures.hpp"
#include "io/write/caution.hpp"
#include "io/write/drawing.hpp"
#include "io/write/json_parts.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

ReportNumber report_number(const RowNumber& number, const Row& row) {
    ReportNumber one;
    one.name = number.name;
    one.quantity = number.quantity;
    one.resolved = number.resolved;
    one.on_edge = number.name.starts_with("edge ");
    for (const LimitVerdict& verdict : row.limits) {
        if (verdict.name == number.name) {
            one.limit = verdict;
        }
    }
    for (const DriftChange& change : row.changes) {
        if (change.name == number.name) {
            one.percent = change.percent;
            one.moved = change.resolved;
            one.drift = change.drift;
        }
    }
    return one;
}

/// The numbers of a row; those that only a limit asks for too.
void add_numbers(ReportRow& all, const Row& row) {
    for (const RowNumber& number : row.numbers) {
        all.numbers.push_back(report_number(number, row));
    }
    for (const LimitVerdict& verdict : row.limits) {
        const bool known = contains(all.numbers, verdict.name, &ReportNumber::name);
        if (!verdict.found && !known) {
            all.unjudged.push_back(verdict.name);
        }
        if (verdict.found && !known) {
            all.numbers.push_back(report_number({verdict.name, *verdict.found}, row));
        }
    }
}

ReportRow report_row(const Row& row, const fs::path& folder, const FolderResults& found) {
    ReportRow all{row.board, row.variant, row.error, {}, std::nullopt, {}, {}, {}, {}};
    if (row.status != RowStatus::done) {
        all.error = row.error.empty() ? status_text(row.status) : row.error;
        return all;
    }
    add_numbers(all, row);
    const auto table = [&](const char* name) {
        return number_table(file_bytes(folder / name), (folder / name).string());
    };
    const char* drawing_name = found.compared ? "drawing-compared.json" : "drawing.json";
    const Json drawing = parsed(folder / drawing_name);
    if (drawing.is_object() && row.variant.empty()) {
        all.drawing = drawing_in(drawing, (folder / drawing_name).string());
    }
    all.facts = facts_of(found);
    if (found.result) {
        all.stations = table("stations.csv");
        all.lines = table("lines.csv");
        all.sections = table("sections.csv");
        all.cooled = cooled_drawing(*found.result);
    }
    if (found.edge) {
        all.edge =
            edge_states(*found.edge, folder / (found.compared ? "edge-compared.csv" : "edge.csv"));
    }
    return all;
}

/// The rows of a page and their strength, one each: where the layup gives first.
struct Page {
    Report report;
    std::vector<StrengthFindings> strength;
    void add(const Row& row, const FolderResults& found, ReportRow shown) {
        report.rows.push_back(std::move(shown));
        strength.push_back(row.variant.empty() ? found.strength.value_or(StrengthFindings{})
                                               : StrengthFindings{});
    }
};

constexpr std::size_t few_conditions = 4; // whose numbers fit an overview

/// Documents of the folder as a row of the page. \param document its name where the page has
/// several boards or states of one, which may have one name; else empty
void add_single_row(Page& page, const fs::path& folder, const FolderResults& found,
                    const std::string& document = "") {
    Row row;
    row.board = found.board().name;
    row.status = RowStatus::done;
    read_result(row, found);
    ReportRow all = report_row(row, folder, found);
    if (!found.result && all.edge.size() <= few_conditions) { // there are no other numbers
        for (ReportNumber& number : all.numbers) {
            number.on_edge = false;
        }
    }
    all.board += document.empty() ? "" : " (" + document + ")";
    page.add(row, found, std::move(all));
}

/// The rows of a folder of `vrid solve --out`, `edge --out`, `strength --out` or several. By hash:
/// results of two states of a file are two boards, and the page says so first.
Page results_of(const fs::path& folder, const Findings& findings) {
    const FolderResults found = read_folder(folder);
    std::vector<std::pair<std::string, FolderResults>> documents;
    if (found.result) {
        documents.push_back({"result.json", {found.result}});
    }
    if (found.strength) {
        documents.push_back({"strength.json", {{}, found.strength}});
    }
    if (found.edge) {
        documents.push_back({"edge.json", {{}, {}, found.edge}});
    }
    const BoardEntry& head = documents.front().second.board();
    Page page{{head.name, program_name(), {}, false, findings, head.hash, ""}, {}};
    const bool mixed = std::ranges::any_of(
        documents, [&](const auto& one) { return one.second.board().hash != head.hash; });
    if (!mixed && found.result) {
        documents = {{"", found}};
    }
    for (const auto& [name, document] : documents) {
        add_single_row(page, folder, document, mixed ? name : "");
    }
    if (mixed) {
        std::string names = documents.front().first;
        for (std::size_t i = 1; i < documents.size(); ++i) {
            names += (i + 1 == documents.size() ? " and " : ", ") + documents[i].first;
        }
        const std::string several = documents.size() == 2 ? "two" : "several";
        page.report.notice = names + " are of " + several + " boards, or of " + several +
                             " states of one file: they are shown apart.";
    }
    if (const std::string others = other_states(findings, head.hash); !others.empty()) {
        page.report.notice += (page.report.notice.empty() ? "" : " ") + others;
    }
    if (found.edge && found.edge->compared) {
        add_single_row(page, folder, compared_of(*found.edge));
    }
    return page;
}

/// What the design verbs left in the folder.
Findings findings_of(const fs::path& folder) {
    Findings found;
    std::error_code error;
    const auto read = [&](const char* name, auto reader, auto& into) {
        if (const fs::path path = folder / name; fs::exists(path, error)) {
            into = reader(file_bytes(path), path.string());
        }
    };
    read("sense.json", read_sense, found.sense);
    read("scatter.json", read_scatter, found.scatter);
    read("calibration.json", read_calibration, found.calibration);
    read("lot.json", read_found_lot, found.lot);
    read("family.json", read_found_family, found.family);
    return found;
}

/// The page of findings alone.
std::string findings_report(const Findings& found) {
    const std::string& board = found.sense         ? found.sense->board.name
                               : found.scatter     ? found.scatter->board.name
                               : found.calibration ? found.calibration->board.name
                               : found.lot         ? found.lot->board.name
                                                   : found.family->board.value.name;
    return report_html({board, program_name(), {}, false, found, "", other_states(found, "")});
}

} // namespace

std::string batch_report(const BatchPlan& plan, const fs::path& folder) {
    Page page{{plan.suite, program_name(), {}, false, {}, "", ""}, {}};
    std::vector<LaidLayer> drawn; // of the last board as drawn
    for (const Row& row : plan.rows) {
        const fs::path own = folder / row.folder;
        page.report.has_baseline = page.report.has_baseline || !row.changes.empty();
        const bool done = row.status == RowStatus::done;
        const FolderResults results = done ? read_folder(own) : FolderResults{};
        ReportRow shown = report_row(row, own, results);
        shown.board = board_title(row, plan.rows);
        page.add(row, results, std::move(shown));
        if (!done) {
            continue;
        }
        const fs::path file = own / "drawing.json";
        const Json drawing = parsed(file);
        const std::vector<LaidLayer> laid = drawing.is_object()
                                                ? drawing_in(drawing, file.string()).layup.value
                                                : std::vector<LaidLayer>();
        if (row.variant.empty()) {
            drawn = laid;
            continue;
        }
        std::vector<VariantChange>& changes = page.report.rows.back().variant_changes;
        for (const auto& [what, before, after] : row.set) {
            changes.push_back({what, before, after});
        }
        const std::vector<VariantChange> layers = layup_changes(drawn, laid);
        changes.insert(changes.end(), layers.begin(), layers.end());
    }
    return report_html(page.report, page.strength);
}

std::string folder_report(const fs::path& folder) {
    std::error_code error;
    if (!fs::is_directory(folder, error)) {
        throw InputError(folder.string(), "no such folder");
    }
    try {
        if (fs::exists(folder / "batch.json", error)) {
            BatchPlan plan = read_plan(folder);
            read_results(plan.rows, folder);
            if (const auto before =
                    plan.drift ? read_baseline(plan.drift->baseline) : std::nullopt) {
                find_drift(plan.rows, *before, plan.drift->percent);
            }
            return batch_report(plan, folder);
        }
        const Findings found = findings_of(folder);
        if (fs::exists(folder / "result.json", error) || fs::exists(folder / "edge.json", error) ||
            fs::exists(folder / "strength.json", error)) {
            const Page page = results_of(folder, found);
            return report_html(page.report, page.strength);
        }
        if (found.any()) {
            return findings_report(found);
        }
    } catch (const Json::exception& wrong) { // the library's own type stays behind this border
        throw InputError(folder.string(), std::string("its results are damaged: ") + wrong.what());
    }
    throw InputError(
        folder.string(),
        "has no batch.json, result.json, strength.json, edge.json, sense.json, scatter.json, "
        "calibration.json, lot.json or family.json: accepted is a folder of vrid batch, of vrid "
        "solve, strength, edge, sense, scatter or lot with --out, of vrid match with sizes, or "
        "with "
        "what vrid "
        "calibrate --json printed");
}

} // namespace vrid
