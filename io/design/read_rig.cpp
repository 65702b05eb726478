#include "io/design/read_rig.hpp"

#include <algorithm>

#include "io/design/number_names.hpp"
#include "io/design/read_free_values.hpp"
#include "io/materials/design_paths.hpp"
#include "io/toml/read_text.hpp"
#include "io/toml/table_reader.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

namespace {

std::optional<double> deviation(TableReader& table, const char* key, const LotColumn& of) {
    const auto written = table.number_if(key);
    if (!written) {
        return std::nullopt;
    }
    if (*written <= 0) { // false for nan, which was told already
        table.wrong(key, "one standard deviation, above 0");
    }
    return of.to_si(*written);
}

std::optional<RigReading> read_rig_reading(TableReader& table, const Board& board) {
    const std::string name = table.text("number");
    const NumberFound found = find_number(name, board);
    const auto value = found.request ? std::nullopt : find_design(board, name);
    if (!name.empty() && !found.request && !value) {
        std::vector<std::string> valid = number_names(board);
        const std::vector<std::string> paths = number_paths(board);
        valid.insert(valid.end(), paths.begin(), paths.end());
        table.problem("number", found.wrong + ", or the path of a design value measured itself" +
                                    did_you_mean(name, valid));
    }
    if (!found.request && !value) {
        return std::nullopt;
    }
    LotColumn of;
    of.number = found.request;
    if (value) {
        of.value = value->id;
    }
    RigReading reading;
    reading.name = name;
    reading.place = table.place();
    reading.sd = deviation(table, "sd", of);
    reading.bias_sd = deviation(table, "bias_sd", of).value_or(0);
    table.finish();
    return reading;
}

RigFree read_free(TableReader& table, const Board& board) {
    const std::string pattern = table.text("value");
    const std::vector<std::string> paths = number_paths(board);
    RigFree free{covered_paths(pattern, paths), table.place()};
    if (!pattern.empty() && free.paths.empty()) {
        table.problem("value", "found \"" + pattern.substr(0, 80) +
                                   "\"; accepted: a design value of this board or a group of them" +
                                   did_you_mean(pattern, paths));
    }
    table.finish();
    return free;
}

} // namespace

Rig read_rig_text(const std::string& text, const std::string& file, const Board& board) {
    Reading reading{file, {}, {}, {}};
    const toml::table parsed = parse_toml(text, reading);
    TableReader root = TableReader::root(reading, parsed);
    Rig rig;
    rig.file = file;
    read_optional_format(root);
    for (TableReader& table : root.tables("reading")) {
        if (auto one = read_rig_reading(table, board)) {
            if (rig_reading(rig, one->name) != nullptr) {
                table.problem("number", "found \"" + one->name + "\" a second time");
            }
            rig.readings.push_back(*std::move(one));
        }
    }
    for (TableReader& table : root.tables("free")) {
        rig.free.push_back(read_free(table, board));
    }
    for (TableReader& table : root.tables("scatter")) {
        rig.scatter.push_back({table.text("group"), table.place()});
        table.finish();
    }
    root.finish();
    throw_if_any(std::move(reading.problems));
    return rig;
}

Rig read_rig(const std::string& path, const Board& board) {
    return read_rig_text(read_text(path), path, board);
}

const RigReading* rig_reading(const Rig& rig, const std::string& name) {
    const auto found = std::ranges::find(rig.readings, name, &RigReading::name);
    return found == rig.readings.end() ? nullptr : &*found;
}

} // namespace vrid
