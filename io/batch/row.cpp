#include "io/batch/row.hpp"

#include <algorithm>
#include <cmath>

#include "io/batch/file_bytes.hpp"
#include "io/batch/job_files.hpp"
#include "io/write/caution.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/number_name.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/response/error_bar.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

void read_numbers(Row& row, const FoundResult& result) {
    row.limits = result.limits;
    row.numbers.push_back({"mass", result.mass});
    if (result.mould_camber) {
        row.numbers.push_back({"mould.camber", *result.mould_camber});
    }
    for (const auto& [name, quantity] : result.pressed) {
        row.numbers.push_back({"pressed." + name, quantity});
    }
    for (const auto& [name, one] : result.cases) {
        for (const auto& [number, quantity] : one.numbers) {
            const std::string between = number.starts_with("mode") ? " " : "."; // as number_name
            row.numbers.push_back(
                {number == "stiffness" ? name : name + between + number, quantity});
        }
        for (const FoundHollow& hollow : one.concavity) {
            const double x = hollow.x_mm / bench_unit(Unit::length).per_si;
            row.numbers.push_back({name_at_station(name + ".concavity", x), hollow.hollow});
        }
    }
}

/// What a later document judged takes the place of what an earlier one had no number for.
void take_verdicts(Row& row, const Verdicts& later) {
    for (const LimitVerdict& verdict : later) {
        const auto same = std::ranges::find(row.limits, verdict.name, &LimitVerdict::name);
        if (same == row.limits.end()) {
            row.limits.push_back(verdict);
        } else if (verdict.found || !same->found) {
            *same = verdict;
        }
    }
}

void read_edge(Row& row, const FoundEdge& edge) {
    take_verdicts(row, edge.limits.value);
    for (const FoundCondition& condition : edge.conditions) {
        if (!condition.no_equilibrium.empty()) {
            row.no_rest.push_back(condition.name);
        }
        for (const auto& [number, quantity] : condition.numbers) {
            if (is_watched_edge_number(number)) {
                row.numbers.push_back({condition.name + " " + in_words(number), quantity});
            }
        }
    }
}

void read_strength(Row& row, const StrengthFindings& found) {
    take_verdicts(row, found.limits);
    for (const FoundCaseStrength& one : found.strength) {
        const std::string number = "strength." + one.name;
        if (one.first) {
            const bool resolved = one.first->resolved;
            row.numbers.push_back({number, one.first->load, resolved});
            const double error = one.first->travel_error;
            row.numbers.push_back(
                {number + ".travel",
                 {one.first->travel, std::isnan(error) ? no_bar : error, one.first->travel_unit},
                 resolved});
        }
        if (one.breaks) {
            row.numbers.push_back({number + ".breaks", one.breaks->load, one.breaks->resolved});
        }
    }
}

const Row* row_like(const Row& row, const std::vector<Row>& rows) {
    const auto found = std::ranges::find_if(rows, [&](const Row& other) {
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
    BatchPlan plan;
    plan.program = program_name();
    plan.suite = suite.name;
    plan.drift = suite.drift;
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
        for (const VariantChange& change : job.changes) {
            row.set.push_back({change.what, change.before, change.after});
        }
        row.status = job.error.empty() ? RowStatus::not_run : RowStatus::failed;
        plan.rows.push_back(row);
    }
    return plan;
}

void write_plan(const BatchPlan& plan, const fs::path& folder) {
    write_file(folder / "batch.json", json_text(written(plan)));
}

BatchPlan read_plan(const fs::path& folder) {
    const fs::path path = folder / "batch.json";
    const Json all = parsed(path);
    try {
        auto plan = read_part<BatchPlan>(all);
        for (Row& row : plan.rows) {
            row.status = row.error.empty() ? RowStatus::not_run : RowStatus::failed;
        }
        return plan;
    } catch (const std::exception&) { // of whatever does not hold
        throw InputError(path.string(), "is missing or damaged: no batch has run here; start vrid "
                                        "batch SUITE.toml --out again");
    }
}

void read_result(Row& row, const FolderResults& found) {
    if (found.result) {
        read_numbers(row, *found.result);
    }
    if (found.strength) {
        read_strength(row, *found.strength);
    }
    if (found.edge) {
        read_edge(row, *found.edge);
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
            read_result(row, read_folder(place)); // whole: its hash was compared
            row.status = RowStatus::done;
        }
    }
}

std::optional<std::vector<Row>> read_baseline(const fs::path& folder) {
    const Json all = parsed(folder / "summary.json");
    try {
        std::vector<Row> rows;
        for (const Json& one : all.at("rows")) {
            auto row = read_part<Row>(one);
            for (const auto& [name, quantity] : one.at("numbers").items()) {
                row.numbers.push_back({name, quantity_in(quantity)});
            }
            rows.push_back(row);
        }
        return rows;
    } catch (const std::exception&) {
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
            const auto then = std::ranges::find(before->numbers, now.name, &RowNumber::name);
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

namespace {

std::string line_of(const std::string& what, std::vector<std::string> names) {
    constexpr std::size_t most = 6; // told one by one
    if (names.empty()) {
        return "";
    }
    const std::size_t more = names.size() - std::min(names.size(), most);
    names.resize(names.size() - more);
    return what + joined(names, "; ") + (more > 0 ? " and " + std::to_string(more) + " more" : "") +
           "\n";
}

std::string file_and_variant(const Row& row) {
    return row.file + (row.variant.empty() ? "" : ", " + row.variant);
}

} // namespace

std::string unmatched_text(const std::vector<Row>& rows, const std::vector<Row>& baseline) {
    std::vector<std::string> added;
    for (const Row& row : rows) {
        const Row* before = row_like(row, baseline);
        if (!row.numbers.empty() && (before == nullptr || before->numbers.empty())) {
            added.push_back(file_and_variant(row));
        }
    }
    std::vector<std::string> gone;
    for (const Row& row : baseline) {
        if (!row.numbers.empty() && row_like(row, rows) == nullptr) {
            gone.push_back(file_and_variant(row));
        }
    }
    return line_of("not in the baseline, so without drift: ", added) +
           line_of("in the baseline and not in this run: ", gone);
}

} // namespace vrid
