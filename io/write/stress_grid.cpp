#include "io/write/field_files.hpp"

#include "io/write/drawing.hpp"
#include "io/write/number.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/units.hpp"
#include "solver/cases/cases.hpp"
#include "solver/response/fields.hpp"

namespace vrid {

namespace {

void add_values(QuadGrid& grid, const StressPlot& plot, const StressValues& values,
                const std::string& ending) {
    const double MPa = from_si("stress_MPa", 1);
    for (std::size_t i = 0; i < plot.plies().size(); ++i) {
        const Eigen::MatrixXd& stress = values.stress[i];
        if (stress.array().isNaN().all()) {
            continue; // nowhere on this board
        }
        const std::string& ply = plot.plies()[i];
        int row = 0;
        for (const char* component : {"1", "2", "12"}) {
            for (const char* end : {" bottom", " top"}) {
                grid.fields.push_back(
                    {std::string("stress ") + component + " MPa " + ply + end + ending,
                     {},
                     MPa * stress.row(row++)});
            }
        }
        for (const char* component : {"13", "23"}) {
            grid.fields.push_back({std::string("stress ") + component + " MPa " + ply + ending,
                                   {},
                                   MPa * stress.row(row++)});
        }
    }
    for (std::size_t i = 0; i < plot.layers().size(); ++i) {
        if (!values.index[i].array().isNaN().all()) {
            const std::string name = plot.layers()[i] + ending;
            grid.fields.push_back({"failure index " + name, {}, values.index[i].transpose()});
            grid.fields.push_back({"failure mode " + name, {}, values.mode[i].transpose()});
        }
    }
}

// What a code stands for: "failure mode 5: crack across".
void note_codes(QuadGrid& grid, const std::string& what, const std::vector<std::string>& names) {
    for (std::size_t i = 0; i < names.size(); ++i) {
        grid.notes.push_back({what + " " + std::to_string(i + 1), {names[i]}});
    }
}

std::vector<std::string> mode_names() {
    std::vector<std::string> names;
    for (int mode = 0; mode < failure_modes; ++mode) {
        names.push_back(mode_name(static_cast<FailureMode>(mode)));
    }
    return names;
}

const CaseResult& answer_of(const StudyResult& study, const std::string& name) {
    return *std::ranges::find(study.cases, name, &CaseResult::name);
}

} // namespace

int plotted_points(const StudyResult& study) {
    return study.numbering.degree + 1;
}

void add_stress_fields(QuadGrid& grid, const StressPlot& plot, const StressFields& fields) {
    add_values(grid, plot, fields.averaged, "");
    add_values(grid, plot, fields.raw, " raw");
    note_codes(grid, "failure mode", mode_names());
}

QuadGrid strength_grid(const BoardStrength& strength, StrengthFields& fields, std::size_t which) {
    const StrengthResult& result = strength.result;
    const CaseStrength& one = result.cases[which];
    const CaseResult& answer = answer_of(result.study, one.name);
    const SignedLoad load = plotted_load(one, answer);
    const StressFields found = fields.fields(which);
    const bool twist = answer.numbers.front().quantity.unit == Unit::twist_stiffness;
    const std::string unit = twist ? "N m" : "N";
    const MotionSample sample =
        sample_motion(strength.board, result.study, answer, plotted_points(result.study));
    QuadGrid grid;
    grid.n = sample.n;
    grid.points = Eigen::Matrix3Xd::Zero(3, sample.position.cols());
    grid.points.topRows(2) = sample.position;
    grid.fields = {{"displacement [m]", {"u", "v", "w"}, load.factor * sample.motion.topRows(3)},
                   {"lowest load [" + unit + "]", {}, found.lowest.transpose()},
                   {"lowest load mode", {}, found.lowest_mode.transpose()},
                   {"lowest load layer", {}, found.lowest_layer.transpose()}};
    add_stress_fields(grid, fields.plot(), found);
    note_codes(grid, "layer", fields.plot().layers());
    grid.notes.push_back({"board", {strength.board.name}});
    grid.notes.push_back({"case", {one.name}});
    grid.notes.push_back({"held", {bench_of(one.name).info.held}});
    grid.notes.push_back({"loaded", {bench_of(one.name).info.loaded}});
    grid.notes.push_back({"load",
                          {significant(load.load, 6) + " " + unit +
                           (load.factor < 0 ? ", against the case" : ", as the case")}});
    grid.notes.push_back(
        {"stress before the load", {result.cooled.empty() ? "none" : result.cooled}});
    if (!result.not_judged.empty()) {
        grid.notes.push_back({"not judged", result.not_judged});
    }
    grid.notes.push_back({"caution", {strength_caution()}});
    return grid;
}

std::string write_strength(const BoardStrength& strength, const StrengthView& view, bool linear,
                           const std::string& folder, const std::function<void()>& between) {
    StagedFiles files(folder);
    const StrengthResult& result = strength.result;
    if (!result.cases.empty()) { // else conditions on the edge alone
        StrengthFields fields(strength.board, result, plotted_points(result.study));
        for (std::size_t i = 0; i < result.cases.size(); ++i) {
            between();
            const CaseStrength& one = result.cases[i];
            if (one.skipped.empty()) {
                files.add("strength-" + one.name + ".vtu",
                          vtu_text(strength_grid(strength, fields, i), linear));
            }
        }
    }
    between();
    files.add("drawing.json", drawing_json(strength.board));
    std::string json = strength_json(strength, view);
    files.add("strength.json", json);
    files.publish_as("strength");
    return json;
}

} // namespace vrid
