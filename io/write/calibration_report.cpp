#include "io/write/calibration_report.hpp"
#include "io/write/caution.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/board_file_entry.hpp"
#include "io/write/design_path.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/number_name.hpp"
#include "io/write/program_name.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

constexpr int calibration_digits = 8;
constexpr double strong = 0.9; // a correlation that a person should know of

Table value_table(const Calibration& calibration) {
    Table table{{{"value", "", Align::left},
                 {"", "", Align::left},
                 {"before", "", Align::decimal},
                 {"sd", "", Align::decimal},
                 {"after", "", Align::decimal},
                 {"sd", "", Align::decimal},
                 {"", "", Align::left}},
                {}};
    for (const FittedValue& value : calibration.values) {
        const auto shown = [&](double si, int n) {
            return significant(from_si(range_of(*value.id.kind), si), n);
        };
        table.rows.push_back(
            {path_of(value.id), std::string(file_unit(range_of(*value.id.kind)).name),
             shown(value.before, 5), value.prior_sd ? shown(*value.prior_sd, 2) : "open",
             shown(value.after, 5), value.at_limit ? "" : shown(value.sd, 2),
             value.at_limit ? "at its limit" : ""});
    }
    return table;
}

Table reading_table(const Calibration& calibration) {
    Table table{{{"reading", "", Align::left},
                 {"", "", Align::left},
                 {"bench", "", Align::decimal},
                 {"sd", "", Align::decimal},
                 {"before", "", Align::decimal},
                 {"after", "", Align::decimal},
                 {"off by", "sd", Align::decimal},
                 {"", "", Align::left}},
                {}};
    for (const FittedReading& reading : calibration.readings) {
        const BenchUnit unit = bench_unit(unit_of(reading.reading.number));
        const auto shown = [&](double si, int n) { return significant(si * unit.per_si, n); };
        table.rows.push_back({number_name(reading.reading.number), unit.name,
                              shown(reading.reading.value, 5), shown(reading.reading.sd, 2),
                              shown(reading.before.value, 5), shown(reading.after.value, 5),
                              fixed(reading.residual, 1), reading.fits ? "" : "does not fit"});
    }
    return table;
}

// What a step along a direction changes of a value, in the file's unit; 0 where it stays.
double change_along(const OpenDirection& open, const FittedValue& value, std::size_t i) {
    const double step = open.step(static_cast<Eigen::Index>(i)) * value.prior_sd.value_or(0);
    const std::string range = range_of(*value.id.kind);
    return from_si(range, value.before + step) - from_si(range, value.before);
}

// Which values change together, and by how much, without a reading that tells.
std::string open_text(const Calibration& calibration) {
    std::string all;
    for (const OpenDirection& open : calibration.open) {
        std::string parts;
        for (std::size_t i = 0; i < calibration.values.size(); ++i) {
            const FittedValue& value = calibration.values[i];
            const double change = change_along(open, value, i);
            if (change != 0) {
                const std::string unit(file_unit(range_of(*value.id.kind)).name);
                parts += (parts.empty() ? "" : ", ") + path_of(value.id) +
                         (change > 0 ? " +" : " ") + significant(change, 2) +
                         (unit.empty() ? "" : " " + unit);
            }
        }
        all += "warning: left open: " + parts + ", all together, change no reading by more than " +
               significant(open.largest_effect, 2) +
               " of its sd; only their tolerances decide there\n";
    }
    return all;
}

Json open_json(const Calibration& calibration) {
    Json all = Json::array();
    for (const OpenDirection& open : calibration.open) {
        Json step = Json::array();
        for (std::size_t i = 0; i < calibration.values.size(); ++i) {
            const FittedValue& value = calibration.values[i];
            const double change = change_along(open, value, i);
            if (change != 0) {
                step.push_back({{"path", path_of(value.id)},
                                {"change", round_significant(change, 4)},
                                {"unit", std::string(file_unit(range_of(*value.id.kind)).name)}});
            }
        }
        all.push_back({{"step", step},
                       {"sd_left", round_significant(open.sd_left, 4)},
                       {"largest_effect", round_significant(open.largest_effect, 4)}});
    }
    return all;
}

std::string doubts_text(const Calibration& calibration) {
    std::string all;
    const auto path = [&](std::size_t i) { return path_of(calibration.values[i].id); };
    for (const Indistinct& pair : calibration.indistinct) {
        all += "warning: these readings cannot tell " + path(pair.one) + " and " +
               path(pair.other) +
               " apart; how the change is shared between them follows from their tolerances\n";
    }
    all += open_text(calibration);
    for (const std::size_t i : calibration.untouched) {
        all += "note: these readings say almost nothing about " + path(i) + "\n";
    }
    for (Eigen::Index i = 0; i < calibration.correlation.rows(); ++i) {
        for (Eigen::Index j = i + 1; j < calibration.correlation.cols(); ++j) {
            const double c = calibration.correlation(i, j);
            if (std::abs(c) > strong) {
                all += "note: " + path(static_cast<std::size_t>(i)) + " and " +
                       path(static_cast<std::size_t>(j)) + " are correlated, " + fixed(c, 2) + "\n";
            }
        }
    }
    std::vector<const FittedReading*> unfit;
    for (const FittedReading& reading : calibration.readings) {
        if (!reading.fits) {
            unfit.push_back(&reading);
        }
    }
    std::stable_sort(unfit.begin(), unfit.end(), [](const auto* a, const auto* b) {
        return std::abs(a->residual) > std::abs(b->residual);
    });
    for (const FittedReading* reading : unfit) {
        all += "warning: the reading of " + number_name(reading->reading.number) + " is " +
               fixed(std::abs(reading->residual), 1) + " standard deviations " +
               (reading->residual < 0 ? "below" : "above") + " what the board can give\n";
    }
    if (unfit.size() > 1) {
        all += "  One wrong reading spoils the fit of others: check the first, give it a large sd, "
               "and fit again.\n";
    }
    return all;
}

Json values_json(const Calibration& calibration) {
    Json all = Json::array();
    for (const FittedValue& value : calibration.values) {
        const auto shown = [&](double si) {
            return round_significant(from_si(range_of(*value.id.kind), si), calibration_digits);
        };
        all.push_back({{"path", path_of(value.id)},
                       {"before", shown(value.before)},
                       {"after", shown(value.after)},
                       {"sd", shown(value.sd)},
                       {"prior_sd", value.prior_sd ? Json(shown(*value.prior_sd)) : Json()},
                       {"unit", std::string(file_unit(range_of(*value.id.kind)).name)},
                       {"at_limit", value.at_limit}});
    }
    return all;
}

Json readings_json(const Calibration& calibration) {
    Json all = Json::array();
    for (const FittedReading& reading : calibration.readings) {
        const BenchUnit unit = bench_unit(unit_of(reading.reading.number));
        all.push_back(
            {{"number", number_name(reading.reading.number)},
             {"value", round_significant(reading.reading.value * unit.per_si, calibration_digits)},
             {"sd", round_significant(reading.reading.sd * unit.per_si, calibration_digits)},
             {"unit", unit.name},
             {"before", json_of(reading.before)},
             {"after", json_of(reading.after)},
             {"residual", round_significant(reading.residual, calibration_digits)},
             {"fits", reading.fits}});
    }
    return all;
}

} // namespace

std::string calibration_text(const Board& board, const Calibration& calibration) {
    return board.name + ": fitted to " + std::to_string(calibration.readings.size()) +
           " readings\n\n" + text(value_table(calibration)) + "\n" +
           text(reading_table(calibration)) + "\n" + doubts_text(calibration);
}

std::string calibration_json(const Board& board, const Calibration& calibration) {
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["board"] = board_file_entry(board, {});
    all["values"] = values_json(calibration);
    Json rows = Json::array();
    for (Eigen::Index i = 0; i < calibration.correlation.rows(); ++i) {
        Json row = Json::array();
        for (Eigen::Index j = 0; j < calibration.correlation.cols(); ++j) {
            row.push_back(round_significant(calibration.correlation(i, j), calibration_digits));
        }
        rows.push_back(row);
    }
    all["correlation"] = rows;
    all["readings"] = readings_json(calibration);
    all["indistinct"] = Json::array();
    for (const Indistinct& pair : calibration.indistinct) {
        all["indistinct"].push_back({{"a", path_of(calibration.values[pair.one].id)},
                                     {"b", path_of(calibration.values[pair.other].id)},
                                     {"alignment", round_significant(pair.alignment, 4)}});
    }
    all["untouched"] = Json::array();
    for (const std::size_t i : calibration.untouched) {
        all["untouched"].push_back(path_of(calibration.values[i].id));
    }
    all["open"] = open_json(calibration);
    all["misfit"] = round_significant(calibration.misfit, calibration_digits);
    all["solves"] = calibration.solves;
    all["warnings"] = calibration.warnings;
    all["caution"] = caution;
    return json_text(all);
}

} // namespace vrid
