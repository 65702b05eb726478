#include <nlohmann/json.hpp>

#include "benchmarks/measure/parts.hpp"
#include "benchmarks/measure/runs.hpp"

namespace vrid::measure {

namespace {

constexpr int starts = 41; // of each, in turn

struct Starts {
    std::vector<double> wall, processor; // [ms]
    void add(const ProgramRun& run, double inside = 0) {
        wall.push_back(1e3 * (run.wall - inside));
        processor.push_back(1e3 * (run.processor - inside));
    }
};

// What `solve --json` says it spent in its phases.
double phases(const ProgramRun& run) {
    double sum = 0;
    for (const auto& [phase, seconds] : nlohmann::json::parse(run.out).at("seconds").items()) {
        sum += seconds.get<double>();
    }
    return sum;
}

void add_rows(const std::string& what, const Starts& all, double limit, std::vector<Row>& rows) {
    rows.push_back(at_most(3, what + ", on the wall", all.wall, limit, "ms"));
    rows.push_back(at_most(3, what + ", of processor", all.processor, limit, "ms"));
}

} // namespace

std::vector<Row> start_rows(const Means& means) {
    const std::string coupon = means.example("coupon-sandwich");
    Starts version;
    Starts check;
    Starts beyond;
    for (int i = -1; i < starts; ++i) { // the first fetches the files from the disk
        const ProgramRun a = run_program({means.vrid, "--version"});
        const ProgramRun b = run_program({means.vrid, "check", coupon});
        const ProgramRun c = run_program({means.vrid, "solve", coupon, "--json"});
        if (a.status != 0 || b.status != 0 || c.status != 0) {
            return {
                not_here(3, "start of the program", "at most 30 ms", means.vrid + " does not run")};
        }
        if (i >= 0) {
            version.add(a);
            check.add(b);
            beyond.add(c, phases(c));
        }
    }
    std::vector<Row> rows;
    add_rows("vrid --version", version, 30, rows);
    add_rows("vrid check of a coupon", check, 30, rows);
    rows.push_back(
        at_most(3, "vrid solve of a coupon beyond its phases, on the wall", beyond.wall, 60, "ms"));
    return rows;
}

} // namespace vrid::measure
