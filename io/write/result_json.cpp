#include "io/write/result_json.hpp"

#include <set>

#include "io/write/caution.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/number.hpp"
#include "io/write/study_text.hpp"
#include "io/write/units.hpp"
#include "mesh/board/surface.hpp"
#include "solver/cooling/mould.hpp"

namespace vrid {

namespace {

constexpr int cooled_digits = 10;

const CaseResult* released(const StudyResult& study) {
    for (const CaseResult& result : study.cases) {
        if (result.cooled && result.name == "release") {
            return &result;
        }
    }
    return nullptr;
}

constexpr int seconds_digits = 4;

Named<FoundCase> cases_of(const StudyResult& study) {
    Named<FoundCase> all;
    const auto add = [&](const std::string& name, const std::vector<NamedQuantity>& numbers) {
        for (FoundCase& one = all[name]; const NamedQuantity& number : numbers) {
            one.numbers[number.name] = to_bench(number.quantity);
        }
    };
    for (const CaseResult& result : study.cases) {
        if (result.cooled) {
            all[result.name] = found_cooled(result);
        } else if (result.skipped.empty()) {
            add(result.name, result.numbers);
        }
    }
    for (const BentCase& bent : study.bent) {
        add(bent_name(bent), bent.numbers);
    }
    return all;
}

std::vector<double> travels_of(const StudyResult& study) {
    std::set<double> travels;
    for (const BentCase& bent : study.bent) {
        travels.insert(round_significant(to_bench({bent.travel, 0, Unit::length}).value, 12));
    }
    return {travels.begin(), travels.end()};
}

void add_skipped(FoundResult& all, const SolvedBoard& solved) {
    for (const auto& [name, why] : skipped_of(solved.study)) {
        all.skipped[name] = why;
    }
    if (!solved.edge_skipped.empty()) {
        all.skipped["edge"] = solved.edge_skipped;
    }
}

void add_mould(FoundResult& all, const SolvedBoard& solved) {
    all.mould = found_mould(solved);
    for (const CaseResult& result : solved.study.cases) {
        for (const NamedQuantity& number : mould_numbers(solved.board, result)) {
            if (number.name == "mould.camber") {
                all.mould_camber = to_bench(number.quantity);
            } else {
                all.pressed[number.name.substr(number.name.find('.') + 1)] =
                    to_bench(number.quantity);
            }
        }
    }
}

Named<Finite> seconds_of(const SolvedBoard& solved, double seconds_write) {
    const auto spent = [&](const char* phase) {
        const auto found = solved.study.seconds.find(phase);
        const double seconds = found == solved.study.seconds.end() ? 0.0 : found->second;
        return round_significant(seconds, seconds_digits);
    };
    Named<Finite> all;
    all["read"] = round_significant(solved.seconds_read, seconds_digits);
    for (const char* phase : {"mesh", "sections", "assemble", "factor", "solve"}) {
        all[phase] = spent(phase);
    }
    if (solved.edge) {
        double edge = 0;
        for (const auto& [phase, seconds] : solved.edge->result.seconds) {
            edge += seconds;
        }
        all["edge"] = round_significant(edge, seconds_digits);
    }
    all["write"] = round_significant(seconds_write, seconds_digits);
    return all;
}

} // namespace

FoundCase found_cooled(const CaseResult& result) {
    const auto mm = [](double metres) { return in_mm(metres, cooled_digits); };
    FoundCase all;
    for (const NamedQuantity& number : result.numbers) {
        if (number.station) {
            all.concavity.push_back({mm(*number.station), {to_bench(number.quantity)}});
        } else {
            all.numbers[number.name] = to_bench(number.quantity);
        }
    }
    all.by_layer.emplace();
    for (const ShapePart& part : result.cooled->by_layer) {
        all.by_layer->push_back({part.layer, mm(part.camber), mm(part.concavity),
                                 part.twist * bench_unit(Unit::angle).per_si});
    }
    for (const ShapePoint& point : result.cooled->axis) {
        all.axis.push_back({mm(point.at), mm(point.rise)});
    }
    for (const CrossCurve& curve : result.cooled->across) {
        all.across.push_back({mm(curve.x), {}});
        for (const ShapePoint& point : curve.points) {
            all.across.back().points.push_back({mm(point.at), mm(point.rise)});
        }
    }
    const StretchShare& stretch = result.cooled->stretch;
    constexpr int few = 3;
    all.stretch = Json{{"eta_x", round_significant(stretch.along, few)},
                       {"eta_x_at_mm", mm(stretch.along_station)},
                       {"eta_y", round_significant(stretch.across, few)},
                       {"eta_y_at_mm", mm(stretch.across_station)}};
    return all;
}

std::vector<FoundMould> found_mould(const SolvedBoard& solved) {
    const auto mm = [](double at) { return to_bench({at, 0, Unit::length}).value + 0.0; };
    std::vector<FoundMould> all;
    if (const CaseResult* release = released(solved.study)) {
        const auto& existing = solved.board.cure->mould;
        for (const MouldPoint& point : mould_line(solved.board, *release->cooled)) {
            all.push_back({mm(point.x), mm(point.wanted), mm(point.change), mm(point.mould)});
            if (existing) {
                all.back().existing_mould_mm = mm(surface_of(*existing).z(point.x));
            }
        }
    }
    return all;
}

std::string mould_csv(const SolvedBoard& solved) {
    const std::vector<FoundMould> line = found_mould(solved);
    if (line.empty()) {
        return "";
    }
    std::string all = "x_mm,wanted_mm,change_mm,mould_mm";
    all += line.front().existing_mould_mm ? ",existing_mould_mm,out_of_it_mm\n" : "\n";
    for (const FoundMould& point : line) {
        all += csv_cell(point.x_mm) + "," + csv_cell(point.wanted_mm) + "," +
               csv_cell(point.change_mm) + "," + csv_cell(point.mould_mm);
        if (const auto& mould = point.existing_mould_mm) {
            all += "," + csv_cell(*mould) + "," + csv_cell(*mould + point.change_mm);
        }
        all += "\n";
    }
    return all;
}

std::string result_json(const SolvedBoard& solved, const std::vector<std::string>& files,
                        double seconds_write) {
    const StudyResult& study = solved.study;
    FoundResult all;
    all.program = program_name();
    all.board = board_file_entry(solved.board, solved.set);
    all.outline = json_of(solved.outline);
    all.mass = to_bench(mass_quantity(solved.mass));
    all.balance_point = balance_point(solved.mass);
    all.shape = study.rest ? "rest" : "flat";
    all.cases = cases_of(study);
    add_mould(all, solved);
    all.bend_mm = travels_of(study);
    add_skipped(all, solved);
    all.limits = verdicts_of(solved);
    all.mesh = {study.mesh.quads.size(), study.numbering.degree, study.unknowns};
    all.solver = {study.residual, study.rel_error_met};
    all.warnings = json_of(solved.warnings).get<std::vector<std::string>>();
    all.warnings.insert(all.warnings.end(), study.warnings.begin(), study.warnings.end());
    for (const std::string& warning : stretch_warnings(study)) {
        all.warnings.push_back(warning);
    }
    all.files = files;
    all.seconds = seconds_of(solved, seconds_write);
    return json_text(written(all));
}

} // namespace vrid
