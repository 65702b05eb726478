#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "benchmarks/measure/parts.hpp"
#include "benchmarks/measure/runs.hpp"

namespace vrid::measure {

namespace {

constexpr double wanted = 10; // times as fast, on every row

struct Ratio {
    std::string text = "none reaches it";
    double median = 0;
    bool any = false;
};

Ratio ratio_of(const nlohmann::json& row, const char* choice) {
    Ratio ratio;
    if (row.contains(choice)) {
        const std::vector<double> all = row.at(choice);
        ratio = {spread_text(all), median(all), true};
    }
    return ratio;
}

} // namespace

std::vector<Row> library_rows(const Means& means) {
    const std::string what = "time at equal error against a general library";
    const std::string aim = "at least 10 times";
    if (means.python.empty()) {
        return {not_here(1, what, aim, "it needs Debian's python3 with DOLFINx")};
    }
    const std::string found = means.folder + "/general_fe.json";
    std::filesystem::remove(found);
    const std::string script = means.sources + "/benchmarks/general_fe/compare.py";
    const ProgramRun run = run_program({means.python, script, means.general_fe, "3", "all", found});
    std::ifstream file(found);
    if (run.status != 0) {
        return {not_here(1, what, aim, "benchmarks/general_fe/compare.py fails: run it by hand")};
    }
    if (!file) {
        return {not_here(1, what, aim, "DOLFINx is not installed (python3-dolfinx)")};
    }
    std::vector<Row> rows;
    for (const nlohmann::json& row : nlohmann::json::parse(file)) {
        const Ratio whole = ratio_of(row, "degrees 3 and 4");
        const Ratio any = ratio_of(row, "any");
        const bool met = any.any && any.median >= wanted && (!whole.any || whole.median >= wanted);
        rows.push_back(
            {1,
             row.at("plate").get<std::string>() + ", error " + number_text(row.at("error")),
             any.text + "; degrees 3, 4: " + whole.text,
             aim,
             met ? Verdict::met : Verdict::not_met,
             {}});
    }
    return rows;
}

} // namespace vrid::measure
