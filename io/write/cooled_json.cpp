#include "io/write/cooled_json.hpp"

#include "io/write/csv_cell.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "solver/cooling/mould.hpp"

namespace vrid {

namespace {

constexpr int cooled_digits = 10;

double rounded_bench(double value, Unit unit) {
    return round_significant(value * bench_unit(unit).per_si, cooled_digits);
}

const CaseResult* released(const StudyResult& study) {
    for (const CaseResult& result : study.cases) {
        if (result.cooled && result.name == "release") {
            return &result;
        }
    }
    return nullptr;
}

} // namespace

Json json_of_cooled(const CaseResult& result) {
    Json all = Json::object();
    Json hollow = Json::array();
    for (const NamedQuantity& number : result.numbers) {
        if (!number.station) {
            all[number.name] = json_of(number.quantity);
            continue;
        }
        Json one{{"x_mm", in_mm(*number.station, cooled_digits)}};
        one.update(json_of(number.quantity));
        hollow.push_back(one);
    }
    all["concavity"] = hollow;
    all["by_layer"] = Json::array();
    for (const ShapePart& part : result.cooled->by_layer) {
        all["by_layer"].push_back({{"layer", part.layer},
                                   {"camber", in_mm(part.camber, cooled_digits)},
                                   {"concavity", in_mm(part.concavity, cooled_digits)},
                                   {"twist", rounded_bench(part.twist, Unit::angle)}});
    }
    for (const ShapePoint& point : result.cooled->axis) {
        all["axis"].push_back({{"x_mm", in_mm(point.at, cooled_digits)},
                               {"rise_mm", in_mm(point.rise, cooled_digits)}});
    }
    for (const CrossCurve& curve : result.cooled->across) {
        Json points = Json::array();
        for (const ShapePoint& point : curve.points) {
            points.push_back({{"y_mm", in_mm(point.at, cooled_digits)},
                              {"rise_mm", in_mm(point.rise, cooled_digits)}});
        }
        all["across"].push_back({{"x_mm", in_mm(curve.x, cooled_digits)}, {"points", points}});
    }
    const StretchShare& stretch = result.cooled->stretch;
    constexpr int few = 3;
    all["stretch"] = {{"eta_x", round_significant(stretch.along, few)},
                      {"eta_x_at_mm", in_mm(stretch.along_station, cooled_digits)},
                      {"eta_y", round_significant(stretch.across, few)},
                      {"eta_y_at_mm", in_mm(stretch.across_station, cooled_digits)}};
    return all;
}

Json json_of_mould(const SolvedBoard& solved) {
    Json all = Json::array();
    if (const CaseResult* release = released(solved.study)) {
        const auto& existing = solved.board.cure->mould;
        std::vector<double> slopes;
        if (existing) {
            slopes = smooth_slopes(existing->x, existing->value);
        }
        for (const MouldPoint& point : mould_line(solved.board, *release->cooled)) {
            Json one{{"x_mm", in_mm(point.x, cooled_digits)},
                     {"wanted_mm", in_mm(point.wanted, cooled_digits)},
                     {"change_mm", in_mm(point.change, cooled_digits)},
                     {"mould_mm", in_mm(point.mould, cooled_digits)}};
            if (existing) {
                one["existing_mould_mm"] =
                    in_mm(value_at(*existing, slopes, point.x), cooled_digits);
            }
            all.push_back(one);
        }
    }
    return all;
}

std::string mould_csv(const SolvedBoard& solved) {
    const CaseResult* release = released(solved.study);
    if (release == nullptr) {
        return "";
    }
    const auto& existing = solved.board.cure->mould;
    std::vector<double> slopes;
    if (existing) {
        slopes = smooth_slopes(existing->x, existing->value);
    }
    std::string all = "x_mm,wanted_mm,change_mm,mould_mm";
    all += existing ? ",existing_mould_mm,out_of_it_mm\n" : "\n";
    const auto cell = [](double value) { return csv_cell(value, Unit::length); };
    for (const MouldPoint& point : mould_line(solved.board, *release->cooled)) {
        all += cell(point.x) + "," + cell(point.wanted) + "," + cell(point.change) + "," +
               cell(point.mould);
        if (existing) {
            const double mould = value_at(*existing, slopes, point.x);
            all += "," + cell(mould) + "," + cell(mould + point.change);
        }
        all += "\n";
    }
    return all;
}

} // namespace vrid
