#include "io/write/match_report.hpp"

#include <cassert>
#include <map>
#include <numeric>

#include "io/write/number.hpp"
#include "io/write/strength_report.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/mesh_lines.hpp"
#include "solver/strength_look.hpp"

namespace vrid {

namespace {

constexpr double thinner = 0.95; // of what it was: below it a station is named
constexpr double lighter = 1 - 1e-6;
constexpr double lower = 0.95; // of the load at first failure: below it a case is named
// By the first look, on the same places: below it the weakest place is searched. What the look
// gets wrong is nearly the same for both boards, and far below a twentieth.
constexpr double near = 0.99;

std::string failure_words(const FailurePlace& place) {
    return significant(place.load.value, 3) + " +- " + significant(place.load.error, 2) + " " +
           load_unit(place) + " (" + place.layer + ", " + mode_name(place.place.mode) + ")";
}

double mass_per_area(const Board& board, const Layer& layer) {
    if (layer.kind == LayerKind::material) {
        return layer.thickness * board.materials.at(layer.material).density;
    }
    const std::vector<FabricPly>& plies = board.fabrics.at(layer.fabric).plies;
    return std::accumulate(plies.begin(), plies.end(), 0.0, [&](double sum, const FabricPly& ply) {
        return sum + (ply.ply_material.empty()
                          ? ply.areal_weight
                          : ply.ply_thickness * board.materials.at(ply.ply_material).density);
    });
}

} // namespace

bool is_resolved(const EarlierFailure& failure) {
    const Quantity& before = failure.before.load;
    const Quantity& after = failure.after.load;
    return before.value - after.value > before.error + after.error;
}

Weaker weaker_places(const Board& before, const Board& after) {
    Weaker weaker;
    if (before.core && after.core) {
        const std::vector<double>& was = before.core->thickness.value;
        const std::vector<double>& is = after.core->thickness.value;
        assert(was.size() == is.size());
        for (std::size_t i = 0; i < was.size(); ++i) {
            if (is[i] < thinner * was[i]) {
                weaker.stations.push_back({before.core->thickness.x[i], was[i], is[i]});
            }
        }
    }
    assert(before.layers.size() == after.layers.size());
    for (std::size_t i = 0; i < before.layers.size(); ++i) {
        if (before.layers[i].kind == LayerKind::core) {
            continue;
        }
        const double was = mass_per_area(before, before.layers[i]);
        const double is = mass_per_area(after, after.layers[i]);
        if (is < lighter * was) {
            weaker.layers.push_back({before.layers[i].name, was, is});
        }
    }
    return weaker;
}

void add_earlier_failures(const Board& before, const Board& after, const Settings& settings,
                          Weaker& weaker) {
    if (!has_strengths(before) && !has_strengths(after)) {
        return;
    }
    StrengthOptions first{settings};
    first.degree = 2;
    first.bend.clear();
    first.prepared = prepare_strength(before, first);
    StrengthOptions second = first;
    if (mesh_lines(after) != first.prepared->lines) {
        second.prepared = prepare_strength(after, second);
    }
    const std::map<std::string, double> looked_before = strength_look(before, first);
    const std::map<std::string, double> looked_after = strength_look(after, second);
    for (const auto& [name, load] : looked_before) {
        const auto now = looked_after.find(name);
        if (now == looked_after.end()) {
            continue;
        }
        weaker.judged = true;
        if (now->second >= near * load) {
            continue;
        }
        first.cases = second.cases = {name};
        const StrengthResult was = run_strength(before, first);
        const StrengthResult is = run_strength(after, second);
        const auto& one = was.cases.front().first;
        const auto& other = is.cases.front().first;
        if (one && other && other->load.value < lower * one->load.value) {
            weaker.failures.push_back({name, *one, *other});
        }
    }
}

std::string strength_words(const Weaker& weaker) {
    if (!weaker.judged) {
        return "strength was not looked at";
    }
    const auto cases = [&weaker](bool resolved) {
        std::vector<EarlierFailure> those = weaker.failures;
        std::erase_if(those, [&](const auto& one) { return is_resolved(one) != resolved; });
        return those.empty()
                   ? ""
                   : joined(those, ", ", &EarlierFailure::bench_case) +
                         (those.size() == 1 ? " gives" : " give") + " earlier than before";
    };
    const std::string sure = cases(true);
    const std::string unsure = cases(false);
    return (weaker.failures.empty() ? "no bench case gives at a load lower by more than 5 %"
            : unsure.empty()
                ? sure
                : sure + (sure.empty() ? "" : "; ") + "whether " + unsure + " is not resolved") +
           " (nominal strengths)";
}

std::string weaker_text(const Weaker& weaker) {
    const auto shown = [](const char* key, double si) { return significant(from_si(key, si), 4); };
    std::string all;
    std::string unsure;
    for (const EarlierFailure& one : weaker.failures) {
        (is_resolved(one) ? all : unsure) += "    " + one.bench_case + " first gives at " +
                                             failure_words(one.after) + ", before at " +
                                             failure_words(one.before) + "\n";
    }
    for (const ThinnerStation& one : weaker.stations) {
        all += "    core at x = " + shown("x_mm", one.x) +
               " mm: " + shown("thickness_mm", one.before) + " to " +
               shown("thickness_mm", one.after) + " mm\n";
    }
    for (const LighterLayer& one : weaker.layers) {
        all += "    layer " + one.name + ": " + shown("areal_weight_gsm", one.before) + " to " +
               shown("areal_weight_gsm", one.after) + " g/m2\n";
    }
    if (!all.empty()) {
        all.insert(0, weaker.judged ? "\n  weaker than before\n"
                                    : "\n  weaker than before; strength was not looked at\n");
    }
    if (!unsure.empty()) {
        all +=
            "\n  weaker or not is not resolved: the difference is smaller than the sum of the two "
            "error bars\n" +
            unsure;
    }
    if (!weaker.failures.empty()) {
        all += wrapped(strength_caution(), 100, 4);
    }
    return all;
}

} // namespace vrid
