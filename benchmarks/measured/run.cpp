#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <sstream>

#include "benchmarks/measured/measured.hpp"
#include "io/design/number_names.hpp"
#include "io/design/read_bench.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "io/write/units.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/design/calibrate.hpp"

namespace vrid::measured {

namespace {

NumbersOptions at_degree(int degree) {
    NumbersOptions options;
    options.degree = degree;
    options.slopes = false;
    return options;
}

Outcome outcome(const Row& row, const Quantity& found) {
    const BenchUnit unit = bench_unit(found.unit);
    return {row, found.value * unit.per_si, found.error * unit.per_si, unit.name};
}

// Rows of one board file that is solved as it stands.
std::vector<Outcome> solved(const std::vector<Row>& rows, const std::string& folder,
                            const MaterialLibrary& library, int degree) {
    const Board board = read_board(folder + "/" + rows.front().board + ".toml", library);
    std::vector<NumberId> requests;
    for (const Row& row : rows) {
        requests.push_back(parse_number(row.number, board));
    }
    const BoardNumbers numbers = board_numbers(board, requests, at_degree(degree));
    std::vector<Outcome> outcomes;
    for (std::size_t k = 0; k < rows.size(); ++k) {
        outcomes.push_back(outcome(rows[k], numbers.numbers[k].quantity));
    }
    return outcomes;
}

// Rows of one board file after `vrid calibrate`.
std::vector<Outcome> fitted(const std::vector<Row>& rows, const std::string& folder,
                            const MaterialLibrary& library, int degree) {
    const Board board = read_board(folder + "/" + rows.front().board + ".toml", library);
    const Bench bench = read_bench(folder + "/" + rows.front().bench + ".toml", board, library);
    std::vector<NumberId> read;
    for (const BenchReading& reading : bench.readings) {
        read.push_back(reading.number);
    }
    Settings settings;
    settings.degree = degree;
    Session session(board, settings, cases_of(read));
    const Calibration calibration = calibrate(session, bench);
    std::vector<Outcome> outcomes;
    for (const Row& row : rows) {
        const NumberId wanted = parse_number(row.number, board);
        const auto found = std::find_if(
            calibration.readings.begin(), calibration.readings.end(),
            [&](const FittedReading& reading) { return reading.reading.number == wanted; });
        outcomes.push_back(outcome(row, found->after));
    }
    return outcomes;
}

SetOutcome run(const Set& set, const std::string& folder, const MaterialLibrary& library,
               int degree) {
    SetOutcome result{set, {}};
    for (std::size_t from = 0; from < set.rows.size();) {
        std::vector<Row> same;
        while (from < set.rows.size() &&
               (same.empty() || set.rows[from].board == same.front().board)) {
            same.push_back(set.rows[from++]);
        }
        const std::vector<Outcome> part = same.front().bench.empty()
                                              ? solved(same, folder, library, degree)
                                              : fitted(same, folder, library, degree);
        result.outcomes.insert(result.outcomes.end(), part.begin(), part.end());
    }
    return result;
}

} // namespace

bool Outcome::as_recorded() const {
    return std::abs(predicted - row.record) <= error;
}

std::vector<SetOutcome> run_all(const std::string& folder, int degree) {
    const MaterialLibrary library = load_material_library();
    std::vector<SetOutcome> all;
    for (const auto& sets : {panels(), plates(), strips(), flax()}) {
        for (const Set& set : sets) {
            all.push_back(run(set, folder, library, degree));
        }
    }
    return all;
}

LineSupports line_supports(const std::string& folder) {
    const MaterialLibrary library = load_material_library();
    const auto stiffness = [&](const std::string& board) {
        return solved({{"", board, "centre-flex"}}, folder, library, 0).front().predicted;
    };
    return {stiffness("rollers-wide"), stiffness("rollers-narrow")};
}

Spread spread(const SetOutcome& set) {
    const auto count = static_cast<double>(set.outcomes.size());
    Spread spread;
    for (const Outcome& one : set.outcomes) {
        spread.mean += one.percent() / count;
    }
    for (const Outcome& one : set.outcomes) {
        spread.deviation += std::pow(one.percent() - spread.mean, 2) / (count - 1);
    }
    spread.deviation = std::sqrt(spread.deviation);
    return spread;
}

std::string changed(const std::vector<SetOutcome>& sets) {
    std::ostringstream text;
    for (const SetOutcome& set : sets) {
        for (const Outcome& one : set.outcomes) {
            if (!one.as_recorded()) {
                text << one.row.board << " " << one.row.number << ": predicted " << one.predicted
                     << " +- " << one.error << " " << one.unit << ", on record " << one.row.record
                     << "\n";
            }
        }
    }
    return text.str();
}

} // namespace vrid::measured
