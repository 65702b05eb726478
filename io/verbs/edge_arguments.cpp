#include "io/verbs/study_arguments.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

#include "io/read/read_edge_condition.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

const std::vector<std::string> sides{"left", "right", "both"};
const std::vector<std::string> laws{"volume", "linear"};

/// What a list accepts: greater than `above`, or from `min` to `max`.
struct ListOption {
    std::string name, fallback;
    double min = 0, max = 0;
    bool open = false; // min itself is out
};

/// The parts between commas; the option may be given more than once.
std::vector<std::string> words_of(const Arguments& arguments, const std::string& name,
                                  const std::string& fallback) {
    std::vector<std::string> words;
    for (const std::string& text :
         arguments.has(name) ? texts_of(arguments, name) : std::vector<std::string>{fallback}) {
        std::size_t from = 0;
        while (from <= text.size()) {
            const std::size_t comma = std::min(text.find(',', from), text.size());
            words.push_back(text.substr(from, comma - from));
            from = comma + 1;
        }
    }
    return words;
}

std::optional<double> number(const std::string& word) {
    double value = 0;
    const auto read = std::from_chars(word.data(), word.data() + word.size(), value);
    const bool whole = read.ec == std::errc{} && read.ptr == word.data() + word.size();
    return whole && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::string accepted(const ListOption& option) {
    return option.open
               ? "a number above " + csv_cell(option.min) + " and up to " + csv_cell(option.max)
               : "a number from " + csv_cell(option.min) + " to " + csv_cell(option.max);
}

bool within(const ListOption& option, double value) {
    return (option.open ? value > option.min : value >= option.min) && value <= option.max;
}

std::vector<double> list_of(const Arguments& arguments, const ListOption& option,
                            std::vector<Problem>& problems) {
    std::vector<double> all;
    for (const std::string& word : words_of(arguments, option.name, option.fallback)) {
        const auto value = number(word);
        if (value && within(option, *value)) {
            all.push_back(*value);
        } else {
            problems.push_back(
                {option.name, "found '" + word + "'; accepted: " + accepted(option)});
        }
    }
    return all;
}

std::vector<double> hardness_of(const Arguments& arguments, SnowLaw law,
                                std::vector<Problem>& problems) {
    const ListOption option{"--hardness", law == SnowLaw::volume ? "packed" : "10", 0, 1e6, true};
    const std::vector<std::string> names = snow_names();
    std::vector<double> all;
    for (const std::string& word : words_of(arguments, option.name, option.fallback)) {
        const auto preset = snow_hardness(word);
        const auto value = number(word);
        if (preset && law == SnowLaw::volume) {
            all.push_back(*preset);
        } else if (value && within(option, *value)) {
            all.push_back(*value);
        } else {
            std::string message = "found '" + word + "'; accepted: " + accepted(option);
            if (law == SnowLaw::volume) {
                message.append(" in N/mm3, or ")
                    .append(joined(names))
                    .append(did_you_mean(word, names));
            } else {
                message.append(" in N/mm2");
            }
            problems.push_back({option.name, message});
        }
    }
    return all;
}

std::string choice_of(const Arguments& arguments, const std::string& name,
                      const std::vector<std::string>& choices, std::vector<Problem>& problems) {
    std::string word = arguments.has(name) ? text_of(arguments, name) : choices.front();
    if (!contains(choices, word)) {
        problems.push_back({name, "found '" + word + "'; accepted: " + joined(choices) +
                                      did_you_mean(word, choices)});
    }
    return word;
}

} // namespace

std::vector<Option> edge_condition_table() {
    return {{"--angle", "DEG,...", "Edging angles, 10 to 80 degrees. Default: 45.", true},
            {"--force", "N,...",
             "Loads of both feet together, normal to the running surface. Default: 800.", true},
            {"--hardness", "H,...",
             "Snow: soft, packed, hard, ice (0.05, 0.5, 5, 50 N/mm3) or numbers in N/mm3; in N/mm2 "
             "with --law linear. Default: packed (10 with linear).",
             true, snow_names()},
            {"--share", "S,...", "The front foot's share of the load, 0 to 1. Default: 0.5.", true},
            {"--side", "SIDE", "left, right or both. Default: left.", false, sides},
            {"--law", "LAW",
             "volume: force by volume of snow displaced; linear: force by depth. Default: volume.",
             false, laws},
            {"--bent", "",
             "In large motion: the board as it is bent on its edge, feet and sections turning by "
             "finite angles. Takes some seconds a condition."}};
}

std::vector<EdgeCondition> edge_conditions(const Arguments& arguments) {
    std::vector<Problem> problems;
    const std::string law_name = choice_of(arguments, "--law", laws, problems);
    const SnowLaw law = law_name == "linear" ? SnowLaw::linear : SnowLaw::volume;
    const std::string side = choice_of(arguments, "--side", sides, problems);
    const auto angles = list_of(arguments, {"--angle", "45", 10, 80, false}, problems);
    const auto forces = list_of(arguments, {"--force", "800", 0, 1e5, true}, problems);
    const auto shares = list_of(arguments, {"--share", "0.5", 0, 1, false}, problems);
    const auto hardness = hardness_of(arguments, law, problems);
    const bool bent = arguments.has("--bent");
    if (bent && arguments.has("--flat")) {
        problems.push_back({"--bent", "does not go with --flat: the heights of the rest shape turn "
                                      "with the bent board, a flat one has none to turn"});
    }
    throw_if_any(problems);
    std::vector<EdgeCondition> all;
    for (const Side one : {Side::left, Side::right}) {
        if (side != "both" && (side == "left") != (one == Side::left)) {
            continue;
        }
        for (const double angle : angles) {
            for (const double H : hardness) {
                for (const double share : shares) {
                    for (const double force : forces) {
                        all.push_back({one, to_si("x_deg", angle), force,
                                       to_si(law == SnowLaw::volume ? "x_Npmm3" : "x_Npmm2", H),
                                       share, law, bent});
                    }
                }
            }
        }
    }
    return all;
}

} // namespace vrid
