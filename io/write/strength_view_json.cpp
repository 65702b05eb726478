#include "io/write/strength_view_json.hpp"

#include <cmath>

#include "io/write/number.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

constexpr int view_digits = 6;

double view_mm(double metres) {
    return in_mm(metres, view_digits);
}

Json view_mm(const std::vector<double>& values) {
    Json all = Json::array();
    for (const double value : values) {
        all.push_back(view_mm(value));
    }
    return all;
}

double in_MPa(double value) {
    constexpr int digits = 6;
    return round_significant(from_si("stress_MPa", value), digits);
}

template <class Values> Json row_in_MPa(const Values& row) {
    Json all = Json::array();
    for (Eigen::Index i = 0; i < row.size(); ++i) {
        all.push_back(in_MPa(row(i)));
    }
    return all;
}

Json json_of(const ProfiledStress& stress) {
    return {{"1", row_in_MPa(stress.in_plane.row(0))},
            {"2", row_in_MPa(stress.in_plane.row(1))},
            {"12", row_in_MPa(stress.in_plane.row(2))},
            {"13", row_in_MPa(stress.shear.row(0))},
            {"23", row_in_MPa(stress.shear.row(1))}};
}

// Of an isotropic material Xt and Xc alone, what the criterion goes by.
Json json_of(const std::optional<PlyStrength>& strength) {
    if (!strength) {
        return {};
    }
    Json all{{"Xt", in_MPa(strength->Xt)}, {"Xc", in_MPa(strength->Xc)}};
    if (!strength->isotropic) {
        all["Yt"] = in_MPa(strength->Yt);
        all["Yc"] = in_MPa(strength->Yc);
        all["S12"] = in_MPa(strength->S12);
    }
    for (const auto& [key, value] :
         {std::pair("S13", strength->S13), std::pair("S23", strength->S23)}) {
        if (value) {
            all[key] = in_MPa(*value);
        }
    }
    return all;
}

Json json_of(const PlyProfile& ply) {
    constexpr int digits = 6;
    Json all;
    all["layer"] = ply.layer;
    all["ply"] = ply.number;
    all["ply_deg"] = round_significant(ply.angle * bench_unit(Unit::angle).per_si, digits);
    all["z_mm"] = {view_mm(ply.bottom), view_mm(ply.top)};
    all["stress_MPa"] = json_of(ply.stress);
    all["parts"] = Json::array();
    for (const PartProfile& part : ply.parts) {
        all["parts"].push_back({{"material", part.material},
                                {"stress_MPa", json_of(part.stress)},
                                {"strengths_MPa", json_of(part.strength)}});
    }
    return all;
}

Json json_of(const Eigen::MatrixXd& load) {
    constexpr int digits = 4;
    Json all = Json::array();
    for (Eigen::Index row = 0; row < load.rows(); ++row) {
        Json one = Json::array();
        for (Eigen::Index column = 0; column < load.cols(); ++column) {
            const double value = load(row, column);
            one.push_back(std::isnan(value) ? Json() : Json(round_significant(value, digits)));
        }
        all.push_back(one);
    }
    return all;
}

} // namespace

void add_view(const StrengthView& view, Json& document) {
    if (view.grid.x.empty()) {
        return; // no case was run
    }
    document["grid"] = {{"x_mm", view_mm(view.grid.x)},
                        {"right_mm", view_mm(view.grid.right)},
                        {"left_mm", view_mm(view.grid.left)},
                        {"rows", view.grid.rows}};
    for (const CaseView& one : view.cases) {
        Json& target = document["strength"][one.name];
        target["lowest_load"] = json_of(one.load);
        target["through"] = Json::array();
        for (const PlyProfile& ply : one.through) {
            target["through"].push_back(json_of(ply));
        }
    }
}

} // namespace vrid
