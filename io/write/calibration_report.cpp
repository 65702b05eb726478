#include "io/write/calibration_report.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/calibration_json.hpp"
#include "io/write/caution.hpp"
#include "io/write/design_path.hpp"
#include "io/write/number_name.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

constexpr double strong = 0.9;     // a correlation that a person should know of
constexpr double no_effect = 1e-6; // of a reading's deviation: below it is rounding

Table value_table(const Calibration& calibration) {
    Table table{{left("value"), left(""), decimal("before"), decimal("sd"), decimal("after"),
                 decimal("sd"), left("")}};
    for (const FittedValue& value : calibration.values) {
        const auto shown = [&](double si, int n) { return significant(from_si(value.id, si), n); };
        table.rows.push_back({path_of(value.id), file_unit_name(value.id), shown(value.before, 5),
                              value.prior_sd ? shown(*value.prior_sd, 2) : "open",
                              shown(value.after, 5), value.at_limit ? "" : shown(value.sd, 2),
                              value.at_limit ? "at its limit" : ""});
    }
    return table;
}

Table reading_table(const Calibration& calibration) {
    Table table{{left("reading"), left(""), decimal("bench"), decimal("sd"), decimal("before"),
                 decimal("after"), decimal("off by", "sd"), left("")}};
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
    return from_si(value.id, value.before + step) - from_si(value.id, value.before);
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
                const std::string unit = file_unit_name(value.id);
                parts += (parts.empty() ? "" : ", ") + path_of(value.id) +
                         (change > 0 ? " +" : " ") + significant(change, 2) +
                         (unit.empty() ? "" : " " + unit);
            }
        }
        all += "warning: left open: " + parts + ", all together, change no reading" +
               (open.largest_effect < no_effect
                    ? ""
                    : " by more than " + significant(open.largest_effect, 2) + " of its sd") +
               "; only their tolerances decide there\n";
    }
    return all;
}

std::vector<LeftOpen> left_open(const Calibration& calibration) {
    std::vector<LeftOpen> all;
    for (const OpenDirection& open : calibration.open) {
        all.push_back({{}, open.sd_left, open.largest_effect});
        for (std::size_t i = 0; i < calibration.values.size(); ++i) {
            const FittedValue& value = calibration.values[i];
            if (const double change = change_along(open, value, i); change != 0) {
                all.back().step.push_back({path_of(value.id), file_unit_name(value.id), change});
            }
        }
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
    std::ranges::stable_sort(unfit, [](const auto* a, const auto* b) {
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

std::vector<CalibratedValue> calibrated_values(const Calibration& calibration) {
    std::vector<CalibratedValue> all;
    for (const FittedValue& value : calibration.values) {
        const auto shown = [&](double si) { return from_si(value.id, si); };
        all.push_back({path_of(value.id), file_unit_name(value.id), shown(value.before),
                       shown(value.after), shown(value.sd),
                       value.prior_sd ? std::optional(shown(*value.prior_sd)) : std::nullopt,
                       value.at_limit});
    }
    return all;
}

std::vector<CalibratedReading> calibrated_readings(const Calibration& calibration) {
    std::vector<CalibratedReading> all;
    for (const FittedReading& reading : calibration.readings) {
        const BenchUnit unit = bench_unit(unit_of(reading.reading.number));
        all.push_back({number_name(reading.reading.number), unit.name,
                       reading.reading.value * unit.per_si, reading.reading.sd * unit.per_si,
                       to_bench(reading.before), to_bench(reading.after), reading.residual,
                       reading.fits});
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
    CalibrationFindings all;
    all.program = program_name();
    all.board = board_file_entry(board, {});
    all.values = calibrated_values(calibration);
    all.readings = calibrated_readings(calibration);
    all.open = left_open(calibration);
    all.misfit = calibration.misfit;
    all.solves = calibration.solves;
    all.warnings = calibration.warnings;
    for (const auto& row : calibration.correlation.rowwise()) {
        all.correlation.emplace_back(row.begin(), row.end());
    }
    const auto path = [&](std::size_t i) { return path_of(calibration.values[i].id); };
    for (const Indistinct& pair : calibration.indistinct) {
        all.indistinct.push_back({path(pair.one), path(pair.other), pair.alignment});
    }
    for (const std::size_t i : calibration.untouched) {
        all.untouched.push_back(path(i));
    }
    return json_text(written(all));
}

} // namespace vrid
