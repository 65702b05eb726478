#include <algorithm>
#include <cmath>
#include <functional>

#include "io/report/findings.hpp"
#include "io/write/json_parts.hpp"
#include "mesh/board/error.hpp"
#include "solver/response/error_bar.hpp"

namespace vrid {
namespace {

constexpr double strong = 0.9; // a correlation that a person should know of

void must(bool holds, const std::string& what) {
    if (!holds) {
        throw InputError("", what);
    }
}

double in_range(const Json& json, const char* key) {
    constexpr double most = 1e100; // sums and squares of it are numbers still
    const double value = json.get<double>();
    must(std::abs(value) <= most, std::string("'") + key + "' is no number that vrid writes");
    return value;
}

/// What was not finite when it was written is null; it is nan here.
double number(const Json& json, const char* key) {
    const Json& found = json.at(key);
    return found.is_null() ? std::nan("") : in_range(found, key);
}

/// Nothing for null or an absent key.
std::optional<double> perhaps(const Json& json, const char* key) {
    const auto found = json.find(key);
    return found == json.end() || found->is_null() ? std::nullopt
                                                   : std::optional(in_range(*found, key));
}

std::string words(const Json& json, const char* key) {
    return json.at(key).get<std::string>();
}

BenchQuantity quantity(const Json& json) {
    const double error = json.contains("error") ? perhaps(json, "error").value_or(no_bar) : 0;
    return {number(json, "value"), error, words(json, "unit")};
}

void must_be_deviation(double sd, const std::string& of) {
    must(!(sd < 0),
         "the deviation of '" + of + "' is " + significant(sd, 3) + ", accepted is 0 or more");
}

void must_be_share(const std::optional<double>& share, const std::string& of) {
    constexpr double rounding = 1e-6;
    must(!share || (*share >= -rounding && *share <= 1 + rounding),
         "the share of '" + of + "' is " + significant(share.value_or(0), 3) +
             ", accepted is 0 to 1");
}

FindingHead head_of(const Json& json) {
    return {words(json, "program"), words(json.at("board"), "name"),
            words(json.at("board"), "hash"), json.at("warnings").get<std::vector<std::string>>()};
}

/// Parses and fills; `mark` is the key that only this document has.
void read_document(const std::string& text, const std::string& file, const char* mark,
                   const std::function<void(const Json&)>& fill) {
    const Json json = Json::parse(text, nullptr, false);
    if (json.is_discarded()) {
        throw InputError(file, "is damaged: no JSON document can be read from it");
    }
    const auto version = json.is_object() ? json.find("format") : json.end();
    if (!json.is_object() || !json.contains(mark) || version == json.end()) {
        throw InputError(file, std::string("is no such document of vrid: 'format' or '") + mark +
                                   "' is missing");
    }
    if (*version != 1) {
        throw InputError(file,
                         "found format " + version->dump(-1, ' ', true) + ", accepted is format 1");
    }
    try {
        fill(json);
    } catch (const Json::exception& wrong) { // the library's own type stays behind this border
        throw InputError(file, std::string("is damaged: ") + wrong.what());
    } catch (const InputError& wrong) {
        throw InputError(file, std::string("is damaged: ") + wrong.what());
    }
}

StepChange step_change(const Json& json) {
    StepChange one;
    one.path = words(json, "to");
    one.x = perhaps(json, "x");
    one.step = number(json, "step");
    one.step_unit = words(json, "step_unit");
    one.change = number(json, "value") * one.step;
    one.percent = perhaps(json, "percent_per_step");
    must(one.step > 0, "the step of '" + one.path + "' is no step");
    return one;
}

void sort_largest_first(std::vector<StepChange>& steps) {
    std::stable_sort(steps.begin(), steps.end(), [](const StepChange& a, const StepChange& b) {
        return std::abs(a.change) > std::abs(b.change);
    });
}

FoundSpread spread(const Json& json, const char* mean, const std::string& of) {
    const FoundSpread found{number(json, mean),     number(json, "sd"),
                            number(json, "p5"),     number(json, "p95"),
                            perhaps(json, "yield"), perhaps(json, "yield_error")};
    must_be_deviation(found.sd, of);
    must_be_share(found.yield, of);
    return found;
}

FoundSource source_of(const Json& json) {
    FoundSource found{words(json, "source"), number(json, "sd"), number(json, "share"),
                      number(json, "sd_if_halved"), perhaps(json, "yield_if_halved")};
    must_be_deviation(found.sd, found.name);
    must_be_deviation(found.sd_if_halved, found.name);
    must_be_share(found.share, found.name);
    must_be_share(found.yield_if_halved, found.name);
    return found;
}

Histogram histogram_of(const Json& json) {
    Histogram found{number(json, "from"), number(json, "width"),
                    json.at("counts").get<std::vector<double>>()};
    must(found.width > 0 && !found.counts.empty() &&
             std::all_of(found.counts.begin(), found.counts.end(), [](double n) { return n >= 0; }),
         "a histogram needs a width above 0 and counts of 0 or more");
    return found;
}

ScatteredNumber scattered(const std::string& name, const Json& json) {
    ScatteredNumber one;
    one.name = name;
    one.quantity = quantity(json);
    one.first_order = spread(json, "value", name);
    one.min = perhaps(json, "min");
    one.max = perhaps(json, "max");
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
    return one;
}

CalibratedValue calibrated_value(const Json& json) {
    CalibratedValue one{words(json, "path"),
                        words(json, "unit"),
                        number(json, "before"),
                        number(json, "after"),
                        number(json, "sd"),
                        perhaps(json, "prior_sd"),
                        json.at("at_limit").get<bool>()};
    must_be_deviation(one.sd, one.path);
    must_be_deviation(one.prior_sd.value_or(0), one.path);
    return one;
}

CalibratedReading calibrated_reading(const Json& json) {
    CalibratedReading one;
    one.name = words(json, "number");
    one.unit = words(json, "unit");
    one.bench = number(json, "value");
    one.sd = number(json, "sd");
    one.before = quantity(json.at("before"));
    one.after = quantity(json.at("after"));
    one.residual = number(json, "residual");
    one.fits = json.at("fits").get<bool>();
    must(one.sd > 0, "the deviation of the reading '" + one.name + "' is not above 0");
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

} // namespace

SenseFindings read_sense(const std::string& text, const std::string& file) {
    SenseFindings found;
    read_document(text, file, "derivatives", [&](const Json& json) {
        found.head = head_of(json);
        for (const auto& [name, one] : json.at("numbers").items()) {
            found.numbers.push_back({name, quantity(one), {}});
        }
        for (const Json& one : json.at("derivatives")) {
            const std::string of = words(one, "of");
            const auto number =
                std::find_if(found.numbers.begin(), found.numbers.end(),
                             [&](const SensedNumber& any) { return any.name == of; });
            must(number != found.numbers.end(), "'" + of + "' is not among its numbers");
            number->steps.push_back(step_change(one));
        }
        for (SensedNumber& number : found.numbers) {
            sort_largest_first(number.steps);
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
            found.indistinct.emplace_back(words(one, "a"), words(one, "b"));
        }
        found.untouched = json.at("untouched").get<std::vector<std::string>>();
        add_correlated(found, json.at("correlation"));
    });
    return found;
}

} // namespace vrid
