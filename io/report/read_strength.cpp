#include "io/report/found_strength.hpp"

#include <cmath>

#include "io/report/read_document.hpp"

namespace vrid {

namespace {

constexpr std::size_t most = 100000; // cells of a picture

FoundPlace place_in(const Json& json, const BenchQuantity& load) {
    FoundPlace place;
    place.load = load;
    place.x = json.at("x_mm").get<double>();
    place.y = json.at("y_mm").get<double>();
    place.both_sides = json.value("both_sides", false);
    place.layer = json.at("layer").get<std::string>();
    place.mode = json.at("mode").get<std::string>();
    place.ply = json.at("ply").get<int>();
    place.angle = json.at("ply_deg").get<double>();
    place.z = json.at("z_mm").get<double>();
    place.at_clamp = json.value("at_clamp", false);
    place.at_outline = json.value("at_outline", false);
    place.resolved = json.value("resolved", true);
    place.sign = json.value("sign", 1);
    return place;
}

std::vector<double> numbers_in(const Json& list) {
    std::vector<double> all;
    for (const Json& one : list) {
        all.push_back(one.is_null() ? std::nan("") : one.get<double>());
    }
    return all;
}

StressByName stress_in(const Json& json) {
    StressByName all;
    for (const auto& [name, count] : {std::pair("1", 2), std::pair("2", 2), std::pair("12", 2),
                                      std::pair("13", 3), std::pair("23", 3)}) {
        all[name] = numbers_in(json.at(name));
        must_hold(all[name].size() == static_cast<std::size_t>(count),
                  "a stress has not the values it must have");
    }
    return all;
}

StressedPly ply_in(const Json& json) {
    StressedPly ply{json.at("layer").get<std::string>(), json.at("ply").get<int>(),
                    json.at("ply_deg").get<double>(),    json.at("z_mm").at(0).get<double>(),
                    json.at("z_mm").at(1).get<double>(), {}};
    must_hold(ply.top > ply.bottom, "a ply has no thickness");
    for (const Json& part : json.at("parts")) {
        StressedPart one{
            part.at("material").get<std::string>(), stress_in(part.at("stress_MPa")), {}};
        if (const Json& strengths = part.at("strengths_MPa"); !strengths.is_null()) {
            one.strengths = strengths.get<std::map<std::string, double>>();
        }
        ply.parts.push_back(one);
    }
    must_hold(!ply.parts.empty(), "a ply is of nothing");
    return ply;
}

void read_grid(const Json& json, StrengthFindings& found) {
    found.x = numbers_in(json.at("x_mm"));
    found.right = numbers_in(json.at("right_mm"));
    found.left = numbers_in(json.at("left_mm"));
    must_hold(found.x.size() > 1 && found.x.size() < most && found.right.size() == found.x.size() &&
                  found.left.size() == found.x.size(),
              "the grid's lists are not of one length");
    for (std::size_t i = 1; i < found.x.size(); ++i) {
        must_hold(found.x[i] > found.x[i - 1], "the grid's stations do not rise");
    }
}

FoundCaseStrength case_in(const std::string& name, const Json& json, std::size_t columns) {
    FoundCaseStrength one;
    one.name = name;
    one.before_load = json.value("before_load", false);
    for (const auto& [key, place] : {std::pair("first", &one.first), std::pair("away", &one.away),
                                     std::pair("breaks", &one.breaks)}) {
        if (json.contains(key)) {
            *place = place_in(json.at(key), quantity_in(json.at(key)));
        }
    }
    if (json.contains("lowest_load")) {
        for (const Json& row : json.at("lowest_load")) {
            one.lowest.push_back(numbers_in(row));
            must_hold(one.lowest.back().size() == columns && one.lowest.size() < most,
                      "the lowest loads do not fit the grid");
        }
    }
    if (json.contains("through")) {
        for (const Json& ply : json.at("through")) {
            one.through.push_back(ply_in(ply));
        }
    }
    return one;
}

BenchQuantity index_in(const Json& json) {
    BenchQuantity index;
    index.value = number_in(json, "index");
    index.error = number_in(json, "error");
    return index;
}

FoundEdgeStrength edge_in(const Json& json) {
    FoundEdgeStrength one;
    one.name = words_in(json, "name");
    one.no_equilibrium = json.value("no_equilibrium", "");
    one.before_load = json.value("before_load", false);
    for (const auto& [key, place] : {std::pair("first", &one.first), std::pair("away", &one.away),
                                     std::pair("breaks", &one.breaks)}) {
        if (json.contains(key)) {
            *place = place_in(json.at(key), index_in(json.at(key)));
        }
    }
    if (json.contains("to_failure")) {
        const Json& loads = json.at("to_failure");
        for (const auto& [key, load] :
             {std::pair("first", &one.to_first), std::pair("breaks", &one.to_break)}) {
            if (loads.contains(key)) {
                *load = {quantity_in(loads.at(key)), loads.at(key).value("why_not", "")};
            }
        }
    }
    return one;
}

} // namespace

StrengthFindings read_strength_json(const std::string& text, const std::string& file) {
    StrengthFindings found;
    read_document(text, file, "strength", [&](const Json& all) {
        found.caution = words_in(all, "caution");
        if (const auto before = all.find("residual"); before != all.end() && before->is_string()) {
            found.before = before->get<std::string>();
        }
        if (all.contains("grid")) {
            read_grid(all.at("grid"), found);
        }
        for (const auto& [name, one] : all.at("strength").items()) {
            if (one.contains("first")) {
                found.cases.push_back(case_in(name, one, found.x.empty() ? 0 : found.x.size() - 1));
                found.not_judged = one.at("not_judged").get<std::vector<std::string>>();
            }
        }
        if (all.contains("edge")) {
            for (const Json& one : all.at("edge")) {
                found.on_edge.push_back(edge_in(one));
                if (one.contains("not_judged")) {
                    found.not_judged = one.at("not_judged").get<std::vector<std::string>>();
                }
            }
        }
    });
    return found;
}

} // namespace vrid
