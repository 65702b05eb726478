#include <algorithm>
#include <cmath>

#include "io/report/findings.hpp"
#include "io/report/read_document.hpp"
#include "io/write/board_file_entry.hpp"
#include "mesh/board/error.hpp"

namespace vrid {
namespace {

constexpr double strong = 0.9; // a correlation that a person should know of

void must_be_deviation(double sd, const std::string& of) {
    must_hold(!(sd < 0),
              "the deviation of '" + of + "' is " + significant(sd, 3) + ", accepted is 0 or more");
}

void must_be_share(const std::optional<double>& share, const std::string& of) {
    constexpr double rounding = 1e-6;
    must_hold(!share || (*share >= -rounding && *share <= 1 + rounding),
              "the share of '" + of + "' is " + significant(share.value_or(0), 3) +
                  ", accepted is 0 to 1");
}

FindingHead head_of(const Json& json) {
    return {words_in(json, "program"), words_in(json.at("board"), "name"),
            words_in(json.at("board"), "hash"), json.at("warnings").get<std::vector<std::string>>(),
            board_file_words(json.at("board"))};
}

StepChange step_change(const Json& json) {
    StepChange one;
    one.path = words_in(json, "to");
    one.x = perhaps_in(json, "x");
    one.step = number_in(json, "step");
    one.step_unit = words_in(json, "step_unit");
    one.change = number_in(json, "value") * one.step;
    one.percent = perhaps_in(json, "percent_per_step");
    must_hold(one.step > 0, "the step of '" + one.path + "' is no step");
    return one;
}

void sort_largest_first(std::vector<StepChange>& steps) {
    std::stable_sort(steps.begin(), steps.end(), [](const StepChange& a, const StepChange& b) {
        return std::abs(a.change) > std::abs(b.change);
    });
}

FoundSpread spread(const Json& json, const char* mean, const std::string& of) {
    const FoundSpread found{number_in(json, mean),
                            number_in(json, "sd"),
                            number_in(json, "p5"),
                            number_in(json, "p95"),
                            perhaps_in(json, "yield"),
                            perhaps_in(json, "yield_error"),
                            perhaps_in(json, "sd_error").value_or(0)};
    must_be_deviation(found.sd_error, of);
    must_be_deviation(found.sd, of);
    must_be_share(found.yield, of);
    return found;
}

FoundSource source_of(const Json& json) {
    FoundSource found{words_in(json, "source"), number_in(json, "sd"), number_in(json, "share"),
                      number_in(json, "sd_if_halved"), perhaps_in(json, "yield_if_halved")};
    must_be_deviation(found.sd, found.name);
    must_be_deviation(found.sd_if_halved, found.name);
    must_be_share(found.share, found.name);
    must_be_share(found.yield_if_halved, found.name);
    return found;
}

Histogram histogram_of(const Json& json) {
    Histogram found{number_in(json, "from"), number_in(json, "width"),
                    json.at("counts").get<std::vector<double>>()};
    must_hold(
        found.width > 0 && !found.counts.empty() &&
            std::all_of(found.counts.begin(), found.counts.end(), [](double n) { return n >= 0; }),
        "a histogram needs a width above 0 and counts of 0 or more");
    return found;
}

ScatteredNumber scattered(const std::string& name, const Json& json) {
    ScatteredNumber one;
    one.name = name;
    one.quantity = quantity_in(json);
    one.first_order = spread(json, "value", name);
    one.min = perhaps_in(json, "min");
    one.max = perhaps_in(json, "max");
    for (const Json& source : json.at("sources")) {
        one.sources.push_back(source_of(source));
    }
    if (const auto sampled = json.find("sampled"); sampled != json.end()) {
        one.sampled = spread(*sampled, "mean", name);
        const auto bars = sampled->find("histogram"); // older documents have none
        if (bars != sampled->end() && !bars->is_null()) {
            one.histogram = histogram_of(*bars);
        }
    }
    if (const auto controlled = json.find("controlled"); controlled != json.end()) {
        one.controlled = spread(*controlled, "mean", name);
    }
    return one;
}

CalibratedValue calibrated_value(const Json& json) {
    CalibratedValue one{words_in(json, "path"),         words_in(json, "unit"),
                        number_in(json, "before"),      number_in(json, "after"),
                        number_in(json, "sd"),          perhaps_in(json, "prior_sd"),
                        json.at("at_limit").get<bool>()};
    must_be_deviation(one.sd, one.path);
    must_be_deviation(one.prior_sd.value_or(0), one.path);
    return one;
}

CalibratedReading calibrated_reading(const Json& json) {
    CalibratedReading one;
    one.name = words_in(json, "number");
    one.unit = words_in(json, "unit");
    one.bench = number_in(json, "value");
    one.sd = number_in(json, "sd");
    one.before = quantity_in(json.at("before"));
    one.after = quantity_in(json.at("after"));
    one.residual = number_in(json, "residual");
    one.fits = json.at("fits").get<bool>();
    must_hold(one.sd > 0, "the deviation of the reading '" + one.name + "' is not above 0");
    return one;
}

void add_correlated(CalibrationFindings& found, const Json& json) {
    const auto matrix = json.get<std::vector<std::vector<double>>>();
    for (std::size_t i = 0; i < std::min(matrix.size(), found.values.size()); ++i) {
        for (std::size_t j = i + 1; j < std::min(matrix[i].size(), found.values.size()); ++j) {
            if (std::abs(matrix[i][j]) > strong) {
                found.correlated.push_back(found.values[i].path + " and " + found.values[j].path +
                                           ", " + fixed(matrix[i][j], 2));
            }
        }
    }
}

void read_outline(const Json& json, SenseFindings& found) {
    FoundOutline outline;
    outline.drawn = json.at("drawn").get<decltype(outline.drawn)>();
    outline.at = json.at("at").get<decltype(outline.at)>();
    outline.outward = json.at("outward").get<decltype(outline.outward)>();
    must_hold(outline.at.size() == outline.outward.size(), "the outline's lists differ in length");
    for (const Json& one : json.at("gains")) {
        const std::string of = words_in(one, "of");
        const auto number = std::find_if(found.numbers.begin(), found.numbers.end(),
                                         [&](const SensedNumber& any) { return any.name == of; });
        must_hold(number != found.numbers.end(), "'" + of + "' is not among its numbers");
        number->widening = one.at("gain").get<std::vector<double>>();
        must_hold(number->widening.size() == outline.at.size(),
                  "the gains of '" + of + "' are not one a vertex");
        for (double& gain : number->widening) { // per mm2, of the number
            constexpr double over = 100;        // mm
            gain *= 100 * over / number->quantity.value;
        }
    }
    for (const auto& [name, why] : json.at("omitted").items()) {
        outline.omitted.emplace_back(name, why.get<std::string>());
    }
    found.outline = std::move(outline);
}

} // namespace

SenseFindings read_sense(const std::string& text, const std::string& file) {
    SenseFindings found;
    read_document(text, file, "derivatives", [&](const Json& json) {
        found.head = head_of(json);
        for (const auto& [name, one] : json.at("numbers").items()) {
            found.numbers.push_back({name, quantity_in(one), {}});
        }
        for (const Json& one : json.at("derivatives")) {
            const std::string of = words_in(one, "of");
            const auto number =
                std::find_if(found.numbers.begin(), found.numbers.end(),
                             [&](const SensedNumber& any) { return any.name == of; });
            must_hold(number != found.numbers.end(), "'" + of + "' is not among its numbers");
            number->steps.push_back(step_change(one));
        }
        for (SensedNumber& number : found.numbers) {
            sort_largest_first(number.steps);
        }
        if (json.contains("outline")) {
            read_outline(json.at("outline"), found);
        }
    });
    return found;
}

ScatterFindings read_scatter(const std::string& text, const std::string& file) {
    ScatterFindings found;
    read_document(text, file, "samples", [&](const Json& json) {
        found.head = head_of(json);
        found.samples = json.at("samples").get<int>();
        for (const auto& [name, one] : json.at("numbers").items()) {
            found.numbers.push_back(scattered(name, one));
        }
    });
    return found;
}

CalibrationFindings read_calibration(const std::string& text, const std::string& file) {
    CalibrationFindings found;
    read_document(text, file, "readings", [&](const Json& json) {
        found.head = head_of(json);
        for (const Json& one : json.at("values")) {
            found.values.push_back(calibrated_value(one));
        }
        for (const Json& one : json.at("readings")) {
            found.readings.push_back(calibrated_reading(one));
        }
        for (const Json& one : json.at("indistinct")) {
            found.indistinct.emplace_back(words_in(one, "a"), words_in(one, "b"));
        }
        found.untouched = json.at("untouched").get<std::vector<std::string>>();
        add_correlated(found, json.at("correlation"));
    });
    return found;
}

} // namespace vrid
