#include "io/design/number_names.hpp"

#include <algorithm>
#include <array>

#include "io/toml/accepted.hpp"
#include "io/write/station_name.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {

namespace {

using Kind = NumberRequest::Kind;

struct NamedUnit {
    const char* name;
    Unit unit;
};

// As edge_numbers (solver/response) gives them; a test holds the two against each other. Its
// "balance" tells whether the edge is at rest and is no property of the board.
constexpr std::array edge_units{
    NamedUnit{"peak", Unit::line_force},          NamedUnit{"peak_x", Unit::length},
    NamedUnit{"contact_tail", Unit::length},      NamedUnit{"contact_nose", Unit::length},
    NamedUnit{"contact_length", Unit::length},    NamedUnit{"effective_length", Unit::length},
    NamedUnit{"share_nose", Unit::none},          NamedUnit{"share_middle", Unit::none},
    NamedUnit{"share_tail", Unit::none},          NamedUnit{"loss_nose", Unit::angle},
    NamedUnit{"loss_tail", Unit::angle},          NamedUnit{"loss_mean", Unit::angle},
    NamedUnit{"max_depth", Unit::length},         NamedUnit{"turn_radius", Unit::radius},
    NamedUnit{"roll_moment_front", Unit::moment}, NamedUnit{"roll_moment_rear", Unit::moment},
};

struct StationKind {
    const char* name;
    Kind kind;
    Unit unit;
};
constexpr std::array station_kinds{
    StationKind{"EI", Kind::EI, Unit::section_stiffness},
    StationKind{"GJ", Kind::GJ, Unit::section_stiffness},
    StationKind{"thickness", Kind::thickness, Unit::length},
};

NumberRequest plain(const std::string& name, Kind kind, Unit unit) {
    NumberRequest request;
    request.name = name;
    request.kind = kind;
    request.unit = unit;
    return request;
}

/// All numbers without a station, with what they need of a board.
struct Listed {
    NumberRequest request;
    bool needs_feet = false;
};

std::vector<Listed> listed_numbers() {
    std::vector<Listed> all{{plain("mass", Kind::mass, Unit::mass)},
                            {plain("balance_point.x", Kind::balance_x, Unit::length)},
                            {plain("balance_point.y", Kind::balance_y, Unit::length)}};
    for (const BenchCase& bench : case_table()) {
        NumberRequest request = plain(bench.info.name, Kind::bench_case, bench.unit);
        request.bench_case = bench.info.name;
        if (bench.modes == 0) {
            all.push_back({request, bench.needs_feet});
        }
        for (int mode = 1; mode <= bench.modes; ++mode) {
            request = plain(bench.info.name + " mode " + std::to_string(mode), Kind::mode,
                            Unit::frequency);
            request.mode = mode;
            all.push_back({request, bench.needs_feet});
        }
    }
    for (const NamedUnit& edge : edge_units) {
        NumberRequest request = plain("edge." + std::string(edge.name), Kind::edge, edge.unit);
        request.edge_number = edge.name;
        all.push_back({request, true});
    }
    return all;
}

std::optional<NumberRequest> at_station(const std::string& name) {
    for (const StationKind& known : station_kinds) {
        if (const auto x = station_in(name, known.name)) {
            NumberRequest request = plain(name, known.kind, known.unit);
            request.station = *x;
            return request;
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
    if (const auto request = at_station(name)) {
        return request->unit;
    }
    for (const Listed& listed : listed_numbers()) {
        if (listed.request.name == name) {
            return listed.request.unit;
        }
    }
    return std::nullopt;
}

std::vector<std::string> number_names(const Board& board) {
    std::vector<std::string> names;
    for (const Listed& listed : listed_numbers()) {
        if (board.stance || !listed.needs_feet) {
            names.push_back(listed.request.name);
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
        if (listed.request.name == name) {
            return board.stance || !listed.needs_feet
                       ? NumberFound{listed.request, ""}
                       : NumberFound{std::nullopt, "found \"" + name +
                                                       "\", which needs the feet: the board has "
                                                       "no [stance]"};
        }
    }
    return {std::nullopt, unknown(name, board)};
}

NumberRequest parse_number(const std::string& name, const Board& board, const std::string& place) {
    const NumberFound found = find_number(name, board);
    if (!found.request) {
        throw InputError(place, found.wrong);
    }
    return *found.request;
}

} // namespace vrid
