#include "io/design/number_names.hpp"

#include <algorithm>
#include <array>

#include "io/toml/accepted.hpp"
#include "io/write/number_name.hpp"
#include "io/write/station_name.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {

namespace {

using Kind = NumberId::Kind;

struct StationKind {
    const char* name;
    Kind kind;
};
constexpr std::array station_kinds{
    StationKind{"EI", Kind::EI},
    StationKind{"GJ", Kind::GJ},
    StationKind{"thickness", Kind::thickness},
};

/// All numbers without a station, with what they need of a board.
struct Listed {
    NumberId number;
    bool needs_feet = false;
};

std::vector<Listed> listed_numbers() {
    std::vector<Listed> all{{{Kind::mass}}, {{Kind::balance_x}}, {{Kind::balance_y}}};
    for (const BenchCase& bench : case_table()) {
        if (bench.modes == 0) {
            all.push_back({{Kind::bench_case, bench.info.name}, bench.needs_feet});
        }
        for (int mode = 1; mode <= bench.modes; ++mode) {
            all.push_back({{Kind::mode, {}, mode}, bench.needs_feet});
        }
    }
    for (const std::string& edge : edge_number_names()) {
        all.push_back({{Kind::edge, {}, 0, 0, edge}, true});
    }
    return all;
}

std::optional<NumberId> at_station(const std::string& name) {
    for (const StationKind& known : station_kinds) {
        if (const auto x = station_in(name, known.name)) {
            return NumberId{known.kind, {}, 0, *x};
        }
    }
    return std::nullopt;
}

std::string off_the_board(const std::string& name, const Planform& planform) {
    const double per_si = bench_unit(Unit::length).per_si;
    const auto [tail, nose] = x_extent(planform);
    return "found \"" + name + "\", a station off the board; accepted: a station between " +
           number_text(tail * per_si) + " and " + number_text(nose * per_si) + " mm";
}

std::string unknown(const std::string& name, const Board& board) {
    for (const StationKind& known : station_kinds) {
        if (name.starts_with(std::string(known.name) + "@") || name == known.name) {
            return "found \"" + name + "\"; accepted: " + known.name +
                   "@X with the station X in mm, as in \"" + known.name + "@-270\"";
        }
    }
    std::vector<std::string> valid = number_names(board);
    valid.insert(valid.end(), {"EI@0", "GJ@0", "thickness@0"});
    return "found \"" + name +
           "\"; accepted: mass, balance_point.x or .y, a static case, \"free-modes mode 1\" to "
           "\"mode 6\", EI@X, GJ@X, thickness@X, edge.NAME" +
           did_you_mean(name, valid);
}

} // namespace

std::optional<Unit> unit_of_number(const std::string& name) {
    if (const auto number = at_station(name)) {
        return unit_of(*number);
    }
    for (const Listed& listed : listed_numbers()) {
        if (number_name(listed.number) == name) {
            return unit_of(listed.number);
        }
    }
    return std::nullopt;
}

std::vector<std::string> number_names(const Board& board) {
    std::vector<std::string> names;
    for (const Listed& listed : listed_numbers()) {
        if (board.stance || !listed.needs_feet) {
            names.push_back(number_name(listed.number));
        }
    }
    return names;
}

NumberFound find_number(const std::string& name, const Board& board) {
    if (const auto request = at_station(name)) {
        return width_at(board.planform, request->station) > 0
                   ? NumberFound{request, ""}
                   : NumberFound{std::nullopt, off_the_board(name, board.planform)};
    }
    for (const Listed& listed : listed_numbers()) {
        if (number_name(listed.number) == name) {
            return board.stance || !listed.needs_feet
                       ? NumberFound{listed.number, ""}
                       : NumberFound{std::nullopt, "found \"" + name +
                                                       "\", which needs the feet: the board has "
                                                       "no [stance]"};
        }
    }
    return {std::nullopt, unknown(name, board)};
}

NumberId parse_number(const std::string& name, const Board& board, const std::string& place) {
    const NumberFound found = find_number(name, board);
    if (!found.request) {
        throw InputError(place, found.wrong);
    }
    return *found.request;
}

} // namespace vrid
