#include "io/read/read_edge_condition.hpp"

#include <array>

#include "io/toml/accepted.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

struct Snow {
    const char* name;
    double hardness; // [N/mm3]
};

// Names are ours; measured values on groomed pistes lie between 0.04 and 90 (Moessner et al., 2013,
// J. Glaciology).
constexpr std::array kinds{Snow{"soft", 0.05}, Snow{"packed", 0.5}, Snow{"hard", 5},
                           Snow{"ice", 50}};

double hardness_si(double value, SnowLaw law) {
    return to_si(law == SnowLaw::volume ? "x_Npmm3" : "x_Npmm2", value);
}

std::string choice(TableReader& table, const std::string& key,
                   const std::vector<std::string>& choices) {
    std::string word = table.text_if(key);
    if (!word.empty() && !contains(choices, word)) {
        table.wrong(key, "\"" + choices[0] + "\" or \"" + choices[1] + "\"");
    }
    return word;
}

/// A number, or for the law of volume the name of a kind of snow.
void read_hardness(TableReader& table, EdgeCondition& condition) {
    const auto found = table.number_or_text_if("hardness");
    if (!found) {
        return;
    }
    const auto* name = std::get_if<std::string>(&*found);
    const bool volume = condition.law == SnowLaw::volume;
    const auto value = name == nullptr ? std::optional(std::get<double>(*found))
                       : volume        ? snow_hardness(*name)
                                       : std::nullopt;
    if (value && is_accepted(accepted("edge.hardness"), *value)) {
        condition.hardness = hardness_si(*value, condition.law);
    } else {
        table.wrong("hardness",
                    accepted_text(accepted("edge.hardness")) +
                        (volume ? " in N/mm3, or one of " + joined(snow_names()) +
                                      (name == nullptr ? "" : did_you_mean(*name, snow_names()))
                                : " in N/mm2"));
    }
}

} // namespace

std::vector<std::string> snow_names() {
    return each_of(kinds, [](const Snow& kind) { return std::string(kind.name); });
}

std::optional<double> snow_hardness(const std::string& name) {
    for (const Snow& kind : kinds) {
        if (name == kind.name) {
            return kind.hardness;
        }
    }
    return std::nullopt;
}

EdgeCondition default_edge_condition(SnowLaw law) {
    constexpr double linear = 10; // [N/mm2]
    const double hardness = law == SnowLaw::volume ? *snow_hardness("packed") : linear;
    return {Side::left, to_si("angle_deg", 45), 800, hardness_si(hardness, law), 0.5, law};
}

EdgeCondition read_edge_condition(TableReader table) {
    const std::string law = choice(table, "law", {"volume", "linear"});
    EdgeCondition condition =
        default_edge_condition(law == "linear" ? SnowLaw::linear : SnowLaw::volume);
    condition.tilt = table.number_or("angle_deg", condition.tilt);
    condition.force = table.number_or("force_N", condition.force);
    read_hardness(table, condition);
    condition.share = table.number_or("share", condition.share);
    condition.side = choice(table, "side", {"left", "right"}) == "right" ? Side::right : Side::left;
    condition.bent = table.flag_or("bent", false);
    table.finish();
    return condition;
}

} // namespace vrid
