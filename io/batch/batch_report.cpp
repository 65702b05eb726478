#include "io/batch/batch_report.hpp"
#include "io/batch/file_bytes.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <sstream>

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

Drawing drawing_of(const Json& json) {
    Drawing drawing;
    drawing.outline = json.at("outline").get<decltype(drawing.outline)>();
    drawing.contact = json.at("contact").get<std::vector<double>>();
    drawing.feet = json.at("feet").get<decltype(drawing.feet)>();
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
    return drawing;
}

StationTable stations_of(const std::string& text) {
    StationTable table;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::size_t column = 0;
        const bool title = table.columns.empty() && table.values.empty();
        for (std::size_t at = 0; at <= line.size(); ++column) {
            const std::size_t end = std::min(line.find(',', at), line.size());
            const std::string cell = line.substr(at, end - at);
            at = end + 1;
            if (title) {
                table.columns.push_back(cell);
                continue;
            }
            double value = std::nan("");
            std::from_chars(cell.data(), cell.data() + cell.size(), value);
            if (column < table.values.size()) {
                table.values[column].push_back(value);
            }
        }
        if (title) {
            table.values.resize(table.columns.size());
        }
    }
    return table;
}

std::string whole_text(const Json& json, const char* key) {
    return json.contains(key) ? std::to_string(json[key].get<long>()) : "";
}

std::vector<std::pair<std::string, std::string>> facts_of(const Json& result) {
    double seconds = 0;
    for (const auto& [phase, spent] : result.at("seconds").items()) {
        seconds += spent.get<double>();
    }
    const Json& mesh = result.at("mesh");
    std::ostringstream residual;
    residual << result.at("solver").value("residual", 0.0);
    std::vector<std::pair<std::string, std::string>> facts{
        {"program", result.value("program", "")},
        {"content hash", result.at("board").value("hash", "")},
        {"mesh", whole_text(mesh, "elements") + " elements of degree " +
                     whole_text(mesh, "degree") + ", " + whole_text(mesh, "unknowns") +
                     " unknowns"},
        {"residual", residual.str()},
        {"seconds", significant(seconds, 2)}};
    for (const auto& [name, why] : result.at("skipped").items()) {
        facts.emplace_back("skipped", name + ": " + why.get<std::string>());
    }
    for (const Json& warning : result.at("warnings")) {
        facts.emplace_back("warning", warning.get<std::string>());
    }
    return facts;
}

/// The map of edge.json as a table; empty if there is none. (The seam for the edge on snow.)
std::vector<std::vector<std::string>> edge_of(const fs::path& folder) {
    const Json all = parsed(folder / "edge.json");
    if (!all.is_object() || !all.contains("conditions")) {
        return {};
    }
    std::vector<std::vector<std::string>> rows{{"angle, deg", "force, N", "hardness", "side",
                                                "peak line force", "peak at x", "contact length",
                                                "loss at nose", "loss at tail"}};
    const auto cell = [](const Json& one, const char* key) -> std::string {
        if (!one.contains(key)) {
            return "";
        }
        const Json& value = one[key];
        if (value.is_object()) {
            return significant(value.value("value", 0.0), 4) + " " + value.value("unit", "");
        }
        return value.is_number() ? significant(value.get<double>(), 4) : value.get<std::string>();
    };
    for (const Json& one : all["conditions"]) {
        std::vector<std::string> row;
        for (const char* key : {"angle_deg", "force_N", "hardness", "side", "peak", "peak_x",
                                "contact_length", "loss_nose", "loss_tail"}) {
            row.push_back(cell(one, key));
        }
        rows.push_back(row);
    }
    return rows;
}

ReportNumber report_number(const RowNumber& number, const Row& row) {
    ReportNumber one{number.name, number.quantity, std::nullopt, std::nullopt, false, false};
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

ReportRow report_row(const Row& row, const fs::path& folder) {
    ReportRow all{row.board, row.variant, row.error, {}, std::nullopt, {}, {}, {}};
    if (row.status != RowStatus::done) {
        all.error = row.error.empty() ? status_text(row.status) : row.error;
        return all;
    }
    for (const RowNumber& number : row.numbers) {
        all.numbers.push_back(report_number(number, row));
    }
    for (const LimitVerdict& verdict : row.limits) { // numbers that only a limit asks for
        const bool known =
            std::any_of(all.numbers.begin(), all.numbers.end(),
                        [&](const ReportNumber& number) { return number.name == verdict.name; });
        if (verdict.found && !known) {
            all.numbers.push_back(report_number({verdict.name, *verdict.found}, row));
        }
    }
    const Json drawing = parsed(folder / "drawing.json");
    if (drawing.is_object() && row.variant.empty()) {
        all.drawing = drawing_of(drawing);
    }
    all.stations = stations_of(file_bytes(folder / "stations.csv"));
    all.facts = facts_of(parsed(folder / "result.json"));
    all.edge = edge_of(folder);
    return all;
}

/// A folder of `vrid solve --out` as a row.
Row solved_row(const fs::path& folder) {
    Row row;
    const Json result = parsed(folder / "result.json");
    row.board = result.at("board").at("name").get<std::string>();
    row.status = RowStatus::done;
    read_result(row, folder);
    return row;
}

} // namespace

std::string batch_report(const BatchPlan& plan, const fs::path& folder) {
    Report report{plan.suite, program_name(), {}, false};
    for (const Row& row : plan.rows) {
        report.has_baseline = report.has_baseline || !row.changes.empty();
        report.rows.push_back(report_row(row, folder / row.folder));
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
        if (fs::exists(folder / "result.json", error)) {
            const Row row = solved_row(folder);
            return report_html({row.board, program_name(), {report_row(row, folder)}, false});
        }
    } catch (const Json::exception& wrong) { // the library's own type stays behind this border
        throw InputError(folder.string(), std::string("its results are damaged: ") + wrong.what());
    }
    throw InputError(folder.string(),
                     "has no batch.json and no result.json: accepted is a folder of "
                     "vrid batch or of vrid solve --out");
}

} // namespace vrid
