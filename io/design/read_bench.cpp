#include "io/design/read_bench.hpp"

#include <algorithm>
#include <filesystem>

#include "io/design/number_names.hpp"
#include "io/design/read_free_values.hpp"
#include "io/materials/tolerances.hpp"
#include "io/toml/read_text.hpp"
#include "io/write/units.hpp"

namespace vrid {

namespace {

BenchReading read_reading(TableReader& table, const Board& board) {
    BenchReading reading;
    reading.place = table.place();
    const std::string name = table.text("number");
    const NumberFound found = find_number(name, board);
    if (!name.empty() && !found.request) {
        table.problem("number", found.wrong);
    }
    reading.number = found.request.value_or(NumberId{});
    if (reading.number.kind == NumberId::Kind::edge) {
        table.problem("number", "found \"" + name +
                                    "\", which no bench measures: it belongs to the board on snow");
    }
    const double per_si = bench_unit(unit_of(reading.number)).per_si;
    reading.value = table.number("value") / per_si;
    reading.sd = table.number("sd") / per_si;
    if (reading.sd <= 0) { // false for nan, which was told already
        table.wrong("sd", "one standard deviation of the reading, above 0: a reading without one "
                          "would overrule all others");
    }
    table.finish();
    return reading;
}

std::vector<BenchReading> read_readings(TableReader& root, const Board& board) {
    std::vector<BenchReading> readings;
    auto tables = root.tables("reading");
    if (tables.empty()) {
        root.wrong("reading", "at least one [[reading]] with number, value and sd");
    }
    for (TableReader& table : tables) {
        readings.push_back(read_reading(table, board));
    }
    return readings;
}

/// The deviations of the free paths; without one for each, the readings must suffice.
std::vector<Tolerance> priors_of(const Bench& bench, const std::vector<Tolerance>& known,
                                 Reading& reading) {
    std::vector<Tolerance> priors;
    const std::size_t count = path_count(bench.free);
    for (const FreeValue& free : bench.free) {
        std::string without;
        for (std::size_t i = 0; i < free.ids.size(); ++i) {
            const auto found = std::ranges::find(known, free.ids[i], &Tolerance::value);
            if (found != known.end()) {
                priors.push_back(*found);
            } else if (without.empty()) {
                without = free.names[i];
            }
        }
        if (!without.empty() && bench.readings.size() < count) {
            note_problem(
                reading, free.place,
                "free.value: " + without + " has no standard deviation in [tolerance], and " +
                    std::to_string(bench.readings.size()) + " readings cannot tell " +
                    std::to_string(count) +
                    " free values; accepted: as many readings, or a standard deviation for each");
        }
    }
    return priors;
}

} // namespace

Bench read_bench_text(const BoardText& source, const Board& board, const MaterialLibrary& library) {
    Reading reading{source.file, {}, {}, {}};
    const toml::table parsed = parse_toml(source.text, reading);
    TableReader root = TableReader::root(reading, parsed);
    Bench bench;
    bench.file = source.file;
    read_optional_format(root);
    bench.readings = read_readings(root, board);
    bench.free = read_free_values(root, board, FreeFor::calibrate);
    root.finish();
    bench.priors = priors_of(bench, tolerances_of(board, library), reading);
    throw_if_any(std::move(reading.problems));
    return bench;
}

Bench read_bench(const std::string& path, const Board& board, const MaterialLibrary& library) {
    return read_bench_text(board_text(path), board, library);
}

} // namespace vrid
