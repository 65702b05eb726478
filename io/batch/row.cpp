#include "io/batch/row.hpp"

#include <algorithm>
#include <cmath>

#include "io/batch/file_bytes.hpp"
#include "io/batch/job_files.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/number_name.hpp"
#include "io/write/program_name.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/strength_document.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "solver/response/error_bar.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

struct PlannedRow {
    std::string board, file, variant, key, folder, error;
    Some<std::vector<std::array<std::string, 3>>> set; ///< what, before, after
};

/// batch.json
struct PlanDocument {
    Later<int> format{1};
    Later<std::string> program;
    std::string suite;
    std::optional<DriftSpec> drift;
    std::vector<PlannedRow> rows;
};

} // namespace

VRID_FIELDS(DriftSpec, 17, baseline, percent)
VRID_FIELDS(PlannedRow, 0, board, file, variant, key, folder, error, set)
VRID_FIELDS(PlanDocument, 0, format, program, suite, drift, rows)

namespace {

// Of a board out of the press: what is a number, or a list of them by station.
void read_shape(Row& row, const std::string& name, const Json& numbers) {
    for (const auto& [number, quantity] : numbers.items()) {
        if (quantity.is_object() && quantity.contains("value")) {
            row.numbers.push_back({name + "." + number, quantity_in(quantity)});
        }
    }
    for (const Json& hollow : numbers.at("concavity")) {
        const double x = hollow.at("x_mm").get<double>() / bench_unit(Unit::length).per_si;
        row.numbers.push_back({name_at_station(name + ".concavity", x), quantity_in(hollow)});
    }
}

void read_numbers(Row& row, const Json& result) {
    row.numbers.push_back({"mass", quantity_in(result.at("mass"))});
    if (result.contains("mould_camber")) {
        row.numbers.push_back({"mould.camber", quantity_in(result.at("mould_camber"))});
    }
    if (result.contains("pressed")) {
        for (const auto& [name, quantity] : result.at("pressed").items()) {
            row.numbers.push_back({"pressed." + name, quantity_in(quantity)});
        }
    }
    for (const auto& [name, numbers] : result.at("cases").items()) {
        if (numbers.contains("by_layer")) {
            read_shape(row, name, numbers);
            continue;
        }
        for (const auto& [number, quantity] : numbers.items()) {
            const std::string between = number.starts_with("mode") ? " " : "."; // as number_name
            row.numbers.push_back(
                {number == "stiffness" ? name : name + between + number, quantity_in(quantity)});
        }
    }
}

void read_edge(Row& row, const Json& edge) {
    for (const Json& condition : edge.at("conditions")) {
        const auto name = condition.at("name").get<std::string>();
        if (condition.contains("no_equilibrium")) {
            row.no_rest.push_back(name);
        }
        for (const auto& [number, quantity] : condition.items()) {
            if (quantity.is_object() && quantity.contains("value") &&
                is_watched_edge_number(number)) {
                row.numbers.push_back({name + " " + in_words(number), quantity_in(quantity)});
            }
        }
    }
}

void read_strength(Row& row, const StrengthFindings& found) {
    for (const FoundCaseStrength& one : found.strength) {
        const std::string number = "strength." + one.name;
        if (one.first) {
            row.numbers.push_back({number, one.first->load});
            const double error = one.first->travel_error;
            row.numbers.push_back(
                {number + ".travel",
                 {one.first->travel, std::isnan(error) ? no_bar : error, one.first->travel_unit}});
        }
        if (one.breaks) {
            row.numbers.push_back({number + ".breaks", one.breaks->load});
        }
    }
}

const Row* row_like(const Row& row, const std::vector<Row>& rows) {
    const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& other) {
        return other.file == row.file && other.variant == row.variant;
    });
    return found == rows.end() ? nullptr : &*found;
}

} // namespace

std::string status_text(RowStatus status) {
    switch (status) {
    case RowStatus::done:
        return "done";
    case RowStatus::failed:
        return "failed";
    case RowStatus::not_run:
        break;
    }
    return "not run";
}

BatchPlan plan_of(const Suite& suite, const std::vector<Job>& jobs) {
    BatchPlan plan{suite.name, suite.drift, {}};
    if (plan.drift) { // a collect may be started in another folder
        plan.drift->baseline = fs::absolute(plan.drift->baseline).lexically_normal().string();
    }
    for (const Job& job : jobs) {
        Row row;
        row.board = job.board;
        row.file = job.file;
        row.variant = job.variant;
        row.key = job.key;
        row.folder = job.folder;
        row.error = job.error;
        row.set = job.changes;
        row.status = job.error.empty() ? RowStatus::not_run : RowStatus::failed;
        plan.rows.push_back(row);
    }
    return plan;
}

void write_plan(const BatchPlan& plan, const fs::path& folder) {
    PlanDocument all;
    all.program = program_name();
    all.suite = plan.suite;
    all.drift = plan.drift;
    for (const Row& row : plan.rows) {
        PlannedRow one{row.board, row.file, row.variant, row.key, row.folder, row.error, {}};
        for (const VariantChange& change : row.set) {
            one.set.push_back({change.what, change.before, change.after});
        }
        all.rows.push_back(one);
    }
    write_file(folder / "batch.json", json_text(written(all)));
}

BatchPlan read_plan(const fs::path& folder) {
    const fs::path path = folder / "batch.json";
    try {
        const auto all = read_part<PlanDocument>(parsed(path));
        BatchPlan plan{all.suite, all.drift, {}};
        for (const PlannedRow& one : all.rows) {
            Row row{one.board, one.file, one.variant, one.key, one.folder, {},
                    one.error, {},       {},          {},      {}};
            for (const auto& [what, before, after] : one.set) {
                row.set.push_back({what, before, after});
            }
            row.status = row.error.empty() ? RowStatus::not_run : RowStatus::failed;
            plan.rows.push_back(row);
        }
        return plan;
    } catch (const Json::exception&) { // the JSON library's own type stays behind this border
        throw InputError(path.string(), "is missing or damaged: no batch has run here; start vrid "
                                        "batch SUITE.toml --out again");
    }
}

void read_result(Row& row, const fs::path& folder, FolderPart part) {
    std::error_code error;
    const bool all = part == FolderPart::all;
    if ((all || part == FolderPart::result) && fs::exists(folder / "result.json", error)) {
        const Json result = parsed(folder / "result.json");
        read_numbers(row, result);
        row.limits = read_part<Verdicts>(result.at("limits"));
    }
    if ((all || part == FolderPart::strength) && fs::exists(folder / "strength.json", error)) {
        const fs::path path = folder / "strength.json";
        read_strength(row, read_strength_json(file_bytes(path), path.string()));
    }
    if (part != FolderPart::result && part != FolderPart::strength &&
        fs::exists(folder / "edge.json", error)) {
        const Json edge = parsed(folder / "edge.json");
        read_edge(row, part == FolderPart::compared ? edge.at("compared") : edge);
    }
}

void read_results(std::vector<Row>& rows, const fs::path& folder) {
    for (Row& row : rows) {
        if (row.status == RowStatus::failed) {
            continue; // known before anything was run
        }
        const fs::path place = folder / row.folder;
        const JobState state = job_state(place, row.key);
        if (state == JobState::failed) {
            row.status = RowStatus::failed;
            row.error = job_error(place, row.key);
        } else if (state == JobState::done) {
            read_result(row, place); // whole: its hash was compared
            row.status = RowStatus::done;
        }
    }
}

std::optional<std::vector<Row>> read_baseline(const fs::path& folder) {
    const Json all = parsed(folder / "summary.json");
    try {
        std::vector<Row> rows;
        for (const Json& one : all.at("rows")) {
            Row row;
            row.board = one.at("board").get<std::string>();
            row.file = one.at("file").get<std::string>();
            row.variant = one.at("variant").get<std::string>();
            for (const auto& [name, quantity] : one.at("numbers").items()) {
                row.numbers.push_back({name, quantity_in(quantity)});
            }
            rows.push_back(row);
        }
        return rows;
    } catch (const Json::exception&) {
        return std::nullopt;
    }
}

namespace {

// What a hundred percent are: of a position out of the press 10 mm or 1 degree, whatever it is.
double drift_size(const std::string& name, const BenchQuantity& before) {
    if (names_a_shape(name)) {
        return before.unit == "mm" ? 10 : 1;
    }
    return std::abs(before.value);
}

} // namespace

void find_drift(std::vector<Row>& rows, const std::vector<Row>& baseline, double percent) {
    for (Row& row : rows) {
        const Row* before = row_like(row, baseline);
        for (const RowNumber& now : before == nullptr ? std::vector<RowNumber>{} : row.numbers) {
            const auto then =
                std::find_if(before->numbers.begin(), before->numbers.end(),
                             [&](const RowNumber& number) { return number.name == now.name; });
            if (then == before->numbers.end()) {
                continue;
            }
            const BenchQuantity& a = then->quantity;
            const BenchQuantity& b = now.quantity;
            DriftChange change{now.name, a, b, 0, false, false};
            const double size = drift_size(now.name, a);
            change.percent = size == 0 ? 0 : 100 * (b.value - a.value) / size;
            change.resolved = std::abs(b.value - a.value) > a.error + b.error;
            change.drift = change.resolved && std::abs(change.percent) > percent;
            row.changes.push_back(change);
        }
    }
}

} // namespace vrid
