#include "io/batch/batch_report.hpp"
#include "io/batch/cooled_drawing.hpp"
#include "io/batch/edge_states.hpp"
#include "io/batch/file_bytes.hpp"
#include "io/batch/number_table.hpp"
#include "io/batch/run_facts.hpp"
#include "io/batch/variant_changes.hpp"

#include <algorithm>

#include "io/report/report_page.hpp"
#include "io/write/drawing_json.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/program_name.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

ReportNumber report_number(const RowNumber& number, const Row& row) {
    ReportNumber one;
    one.name = number.name;
    one.quantity = number.quantity;
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
        const bool known =
            std::any_of(all.numbers.begin(), all.numbers.end(),
                        [&](const ReportNumber& number) { return number.name == verdict.name; });
        if (verdict.found && !known) {
            all.numbers.push_back(report_number({verdict.name, *verdict.found}, row));
        }
    }
}

ReportRow report_row(const Row& row, const fs::path& folder, FolderPart part = FolderPart::all) {
    ReportRow all{row.board, row.variant, row.error, {}, std::nullopt, {}, {}, {}, {}};
    if (row.status != RowStatus::done) {
        all.error = row.error.empty() ? status_text(row.status) : row.error;
        return all;
    }
    add_numbers(all, row);
    const bool compared = part == FolderPart::compared;
    const bool solved = part == FolderPart::all || part == FolderPart::result;
    const auto table = [&](const char* name) {
        return number_table(file_bytes(folder / name), (folder / name).string());
    };
    const char* drawing_name = compared ? "drawing-compared.json" : "drawing.json";
    const Json drawing = parsed(folder / drawing_name);
    if (drawing.is_object() && row.variant.empty()) {
        all.drawing = drawing_in(drawing, (folder / drawing_name).string());
    }
    if (solved) {
        all.stations = table("stations.csv");
        all.sections = table("sections.csv");
    }
    const bool on_edge = part != FolderPart::result && part != FolderPart::strength;
    const Json edge = on_edge ? parsed(folder / "edge.json") : Json();
    all.facts = facts_of(solved ? parsed(folder / "result.json") : Json(),
                         compared                       ? edge.at("compared")
                         : part == FolderPart::strength ? parsed(folder / "strength.json")
                                                        : edge);
    if (edge.is_object()) {
        all.edge = edge_states(folder, compared);
    }
    if (solved) {
        all.cooled = cooled_drawing(parsed(folder / "result.json"));
    }
    return all;
}

/// Where the layup of a row gives first; without cases if nothing tells.
StrengthFindings strength_of(const Row& row, const fs::path& folder, FolderPart part) {
    const fs::path path = folder / "strength.json";
    std::error_code error;
    const bool wanted = part == FolderPart::all || part == FolderPart::strength;
    return wanted && row.status == RowStatus::done && row.variant.empty() && fs::exists(path, error)
               ? read_strength_json(file_bytes(path), path.string())
               : StrengthFindings{};
}

/// The rows of a page and their strength, one each.
struct Page {
    Report report;
    std::vector<StrengthFindings> strength;
    void add(const Row& row, const fs::path& folder, FolderPart part, ReportRow shown) {
        report.rows.push_back(std::move(shown));
        strength.push_back(strength_of(row, folder, part));
    }
};

constexpr std::size_t few_conditions = 4; // whose numbers fit an overview

/// A document of the folder as a row of the page.
void add_single_row(Page& page, const fs::path& folder, const Json& board, FolderPart part) {
    Row row;
    row.board = board.at("name").get<std::string>();
    row.status = RowStatus::done;
    read_result(row, folder, part);
    ReportRow all = report_row(row, folder, part);
    if (part != FolderPart::all && part != FolderPart::result &&
        all.edge.size() <= few_conditions) { // there are no other numbers
        for (ReportNumber& number : all.numbers) {
            number.on_edge = false;
        }
    }
    page.add(row, folder, part, std::move(all));
}

std::string hash_of(const Json& document) {
    return document.at("board").at("hash").get<std::string>();
}

/// The rows of a folder of `vrid solve --out`, `edge --out`, `strength --out` or several. By hash:
/// results of two states of a file are two boards, and the page says so first.
Page results_of(const fs::path& folder, const Findings& found) {
    struct Document {
        const char* name;
        FolderPart part;
        Json all;
    };
    std::vector<Document> documents{{"result.json", FolderPart::result, {}},
                                    {"strength.json", FolderPart::strength, {}},
                                    {"edge.json", FolderPart::edge, {}}};
    std::error_code error;
    for (Document& one : documents) {
        one.all = parsed(folder / one.name);
        if (!one.all.is_object() && fs::exists(folder / one.name, error)) {
            throw InputError((folder / one.name).string(),
                             "is damaged: accepted is the document that vrid wrote");
        }
    }
    std::erase_if(documents, [](const Document& one) { return !one.all.is_object(); });
    const Json& head = documents.front().all;
    Page page{{head.at("board").at("name").get<std::string>(),
               program_name(),
               {},
               false,
               found,
               hash_of(head),
               ""},
              {}};
    const bool mixed = std::any_of(documents.begin(), documents.end(), [&](const Document& one) {
        return hash_of(one.all) != hash_of(head);
    });
    if (!mixed && documents.front().part == FolderPart::result) {
        add_single_row(page, folder, head.at("board"), FolderPart::all);
    } else {
        for (const Document& one : documents) {
            add_single_row(page, folder, one.all.at("board"), one.part);
        }
    }
    if (mixed) {
        std::string names = documents.front().name;
        for (std::size_t i = 1; i < documents.size(); ++i) {
            names += (i + 1 == documents.size() ? " and " : ", ") + std::string(documents[i].name);
        }
        const std::string several = documents.size() == 2 ? "two" : "several";
        page.report.notice = names + " are of " + several + " boards, or of " + several +
                             " states of one file: they are shown apart.";
    }
    const Document& last = documents.back();
    if (last.part == FolderPart::edge && last.all.contains("compared")) {
        add_single_row(page, folder, last.all.at("compared").at("board"), FolderPart::compared);
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
    return report_html({board, program_name(), {}, false, found, "", ""});
}

} // namespace

std::string batch_report(const BatchPlan& plan, const fs::path& folder) {
    Page page{{plan.suite, program_name(), {}, false, {}, "", ""}, {}};
    std::vector<LaidLayer> drawn; // of the last board as drawn
    for (const Row& row : plan.rows) {
        const fs::path own = folder / row.folder;
        page.report.has_baseline = page.report.has_baseline || !row.changes.empty();
        page.add(row, own, FolderPart::all, report_row(row, own));
        if (row.status != RowStatus::done) {
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
        changes = row.set;
        const std::vector<VariantChange> layers = layup_changes(drawn, laid);
        changes.insert(changes.end(), layers.begin(), layers.end());
    }
    return report_html(page.report, page.strength);
}

std::string folder_report(const fs::path& folder) {
    std::error_code error;
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
        "solve, strength, edge, sense or scatter with --out, of vrid match with sizes, or with "
        "what vrid "
        "calibrate --json printed");
}

} // namespace vrid
