#include "io/write/cooled_json.hpp"

#include "io/write/csv_cell.hpp"
#include "io/write/number.hpp"
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

} // namespace vrid
