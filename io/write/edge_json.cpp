#include <cmath>

#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/program_name.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

constexpr int given_digits = 12; // of what the user typed, turned to SI and back
constexpr int balance_digits = 2;

Json json_of(const EdgeConditionResult& one) {
    Json all = written(written_condition(one.condition));
    if (!one.no_equilibrium.empty()) {
        all["no_equilibrium"] = one.no_equilibrium;
    }
    for (const NamedQuantity& number : one.numbers) {
        if (number.name == "balance") {
            all["balance"] = round_significant(number.quantity.value, balance_digits);
        } else {
            all[number.name] = json_of(number.quantity);
        }
    }
    return all;
}

Json difference_of(const EdgeConditionResult& one, const EdgeConditionResult& two) {
    Json all = Json::object();
    for (std::size_t i = 0; i < std::min(one.numbers.size(), two.numbers.size()); ++i) {
        const Quantity& a = one.numbers[i].quantity;
        const Quantity& b = two.numbers[i].quantity;
        if (one.numbers[i].name != "balance") {
            const Quantity difference{b.value - a.value, a.error + b.error, a.unit};
            Json number = json_of(difference);
            number["resolved"] = std::abs(difference.value) > difference.error;
            all[one.numbers[i].name] = number;
        }
    }
    return all;
}

Json board_of(const EdgeHold& hold) {
    return written(board_file_entry(hold.board, hold.set));
}

} // namespace

WrittenCondition written_condition(const EdgeCondition& condition) {
    const bool volume = condition.law == SnowLaw::volume;
    const auto given = [](const char* key, double value) {
        return round_significant(from_si(key, value), given_digits);
    };
    return {edge_condition_name(condition),
            given("x_deg", condition.tilt),
            given("x_N", condition.force),
            given(volume ? "x_Npmm3" : "x_Npmm2", condition.hardness),
            condition.share,
            condition.side == Side::left ? "left" : "right",
            volume ? "volume" : "linear"};
}

std::string edge_json(const EdgeHold& hold, const EdgeHold* other) {
    const EdgeResult& result = hold.result;
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["board"] = board_of(hold);
    all["shape"] = result.rest ? "rest" : "flat";
    all["motion"] = result.bent ? "large" : "small";
    all["conditions"] = Json::array();
    for (const EdgeConditionResult& one : result.conditions) {
        all["conditions"].push_back(json_of(one));
    }
    all["mesh"] = Json{{"elements", result.mesh.quads.size()},
                       {"degree", result.numbering.degree},
                       {"unknowns", result.unknowns}};
    all["warnings"] = result.warnings;
    if (other != nullptr) {
        Json conditions = Json::array();
        for (std::size_t i = 0; i < result.conditions.size(); ++i) {
            Json one = json_of(other->result.conditions[i]);
            one["difference"] = difference_of(result.conditions[i], other->result.conditions[i]);
            conditions.push_back(one);
        }
        all["compared"] = Json{{"board", board_of(*other)},
                               {"conditions", conditions},
                               {"warnings", other->result.warnings}};
    }
    all["caution"] = caution;
    return json_text(all);
}

} // namespace vrid
