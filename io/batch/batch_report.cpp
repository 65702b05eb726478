#include "io/batch/batch_report.hpp"
#include "io/batch/cooled_drawing.hpp"
#include "io/batch/edge_states.hpp"
#include "io/batch/file_bytes.hpp"
#include "io/batch/laid_layers.hpp"
#include "io/batch/number_table.hpp"
#include "io/batch/run_facts.hpp"
#include "io/batch/variant_changes.hpp"

#include <algorithm>

#include "io/report/report.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/program_name.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

Json parsed(const fs::path& path) {
    return Json::parse(file_bytes(path), nullptr, false);
}

/// Lists of another length than the pictures go by are damage. \throws InputError naming the place
void must_have(std::size_t found, std::size_t wanted, const fs::path& file,
               const std::string& pointer) {
    if (found != wanted) {
        throw InputError(file.string(), "is damaged at " + pointer + ": found a list of " +
                                            std::to_string(found) + ", accepted is a list of " +
                                            std::to_string(wanted));
    }
}

Drawing drawing_of(const Json& json, const fs::path& file) {
    Drawing drawing;
    drawing.outline = json.at("outline").get<decltype(drawing.outline)>();
    drawing.contact = json.at("contact").get<std::vector<double>>();
    drawing.feet = json.at("feet").get<decltype(drawing.feet)>();
    must_have(drawing.contact.size(), 2, file, "/contact");
    for (std::size_t i = 0; i < drawing.feet.size(); ++i) {
        must_have(drawing.feet[i].size(), 4, file, "/feet/" + std::to_string(i));
    }
    for (const Json& one : json.at("zones")) {
        DrawnZone zone;
        zone.layer = one.at("layer").get<std::string>();
        if (one.at("kind") == "area") {
            zone.points = one.at("points").get<decltype(zone.points)>();
        } else {
            zone.from = one.at("from").get<double>();
            zone.to = one.at("to").get<double>();
            zone.x_from = one.at("x").at(0).get<double>();
            zone.x_to = one.at("x").at(1).get<double>();
        }
        drawing.zones.push_back(zone);
    }
    for (const Json& one : json.at("sections")) {
        DrawnSection section{one.at("label").get<std::string>(), one.at("x").get<double>(), {}};
        for (const Json& part : one.at("parts")) {
            DrawnPart drawn{part.at("y").at(0).get<double>(), part.at("y").at(1).get<double>(), {}};
            for (const Json& layer : part.at("layers")) {
                drawn.layers.push_back(
                    {layer.at("name").get<std::string>(), layer.at("material").get<std::string>(),
                     layer.at("angle").get<double>(), layer.at("z").at(0).get<double>(),
                     layer.at("z").at(1).get<double>()});
            }
            section.parts.push_back(drawn);
        }
        drawing.sections.push_back(section);
    }
    drawing.layup = laid_layers(json);
    return drawing;
}

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
        all.drawing = drawing_of(drawing, folder / drawing_name);
    }
    if (solved) {
        all.stations = table("stations.csv");
        all.sections = table("sections.csv");
    }
    const Json edge = part == FolderPart::result ? Json() : parsed(folder / "edge.json");
    all.facts = facts_of(solved ? parsed(folder / "result.json") : Json(),
                         compared ? edge.at("compared") : edge);
    if (edge.is_object()) {
        all.edge = edge_states(folder, compared);
    }
    if (solved) {
        all.cooled = cooled_drawing(parsed(folder / "result.json"));
    }
    return all;
}

constexpr std::size_t few_conditions = 4; // whose numbers fit an overview

/// A document of the folder as a row of the page.
ReportRow single_row(const fs::path& folder, const Json& board, FolderPart part) {
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
    return all;
}

std::string hash_of(const Json& document) {
    return document.at("board").at("hash").get<std::string>();
}

/// The rows of a folder of `vrid solve --out`, `vrid edge --out` or both. By hash: results of two
/// states of a file are two boards, and the page says so first.
Report results_of(const fs::path& folder, const Findings& found) {
    const Json result = parsed(folder / "result.json");
    const Json edge = parsed(folder / "edge.json");
    const Json& head = result.is_object() ? result : edge;
    Report report{head.at("board").at("name").get<std::string>(),
                  program_name(),
                  {},
                  false,
                  found,
                  hash_of(head),
                  ""};
    const bool mixed = result.is_object() && edge.is_object() && hash_of(result) != hash_of(edge);
    if (mixed) {
        report.notice = "result.json and edge.json are of two boards, or of two states of one "
                        "file: they are shown apart.";
        report.rows.push_back(single_row(folder, result.at("board"), FolderPart::result));
        report.rows.push_back(single_row(folder, edge.at("board"), FolderPart::edge));
    } else {
        report.rows.push_back(single_row(folder, head.at("board"),
                                         result.is_object() ? FolderPart::all : FolderPart::edge));
    }
    if (edge.is_object() && edge.contains("compared")) {
        report.rows.push_back(
            single_row(folder, edge.at("compared").at("board"), FolderPart::compared));
    }
    return report;
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
    const std::string& board = found.sense         ? found.sense->head.board
                               : found.scatter     ? found.scatter->head.board
                               : found.calibration ? found.calibration->head.board
                               : found.lot         ? found.lot->board
                                                   : found.family->board;
    return report_html({board, program_name(), {}, false, found, "", ""});
}

} // namespace

std::string batch_report(const BatchPlan& plan, const fs::path& folder) {
    Report report{plan.suite, program_name(), {}, false, {}, "", ""};
    std::vector<LaidLayer> drawn; // of the last board as drawn
    for (const Row& row : plan.rows) {
        report.has_baseline = report.has_baseline || !row.changes.empty();
        report.rows.push_back(report_row(row, folder / row.folder));
        if (row.status != RowStatus::done) {
            continue;
        }
        const fs::path file = folder / row.folder / "drawing.json";
        const Json drawing = parsed(file);
        const std::vector<LaidLayer> laid =
            drawing.is_object() ? drawing_of(drawing, file).layup : std::vector<LaidLayer>();
        if (row.variant.empty()) {
            drawn = laid;
            continue;
        }
        std::vector<VariantChange>& changes = report.rows.back().variant_changes;
        changes = row.set;
        const std::vector<VariantChange> layers = layup_changes(drawn, laid);
        changes.insert(changes.end(), layers.begin(), layers.end());
    }
    return report_html(report);
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
        if (fs::exists(folder / "result.json", error) || fs::exists(folder / "edge.json", error)) {
            return report_html(results_of(folder, found));
        }
        if (found.any()) {
            return findings_report(found);
        }
    } catch (const Json::exception& wrong) { // the library's own type stays behind this border
        throw InputError(folder.string(), std::string("its results are damaged: ") + wrong.what());
    }
    throw InputError(
        folder.string(),
        "has no batch.json, result.json, edge.json, sense.json, scatter.json, "
        "calibration.json, lot.json or family.json: accepted is a folder of vrid batch, of vrid "
        "solve, edge, sense or scatter with --out, of vrid match with sizes, or with what vrid "
        "calibrate --json printed");
}

} // namespace vrid
