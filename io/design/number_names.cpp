#include "io/design/number_names.hpp"

#include <array>
#include <charconv>

#include "io/toml/accepted.hpp"
#include "io/toml/fault_words.hpp"
#include "io/write/number_name.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/nearest_name.hpp"
#include "solver/bend.hpp"
#include "solver/cases/cases.hpp"
#include "solver/cooling/mould.hpp"
#include "solver/design/number_requests.hpp"

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
    bool needs_cure = false;
    bool needs_mould = false;
    /// What the board lacks for it; empty: nothing.
    [[nodiscard]] std::string lacks(const Board& board) const {
        return needs_feet && !board.stance ? "needs the feet: the board has no [stance]"
               : needs_cure && !board.cure ? "needs a cure: the board has no [cure]"
               : needs_mould && !board.cure->mould
                   ? "needs a mould that exists: [cure] has no mould_z_mm"
                   : "";
    }
};

std::vector<Listed> listed_numbers() {
    std::vector<Listed> all{{{Kind::mass}},           {{Kind::balance_x}}, {{Kind::balance_y}},
                            {{Kind::sidecut_radius}}, {{Kind::length}},    {{Kind::area}}};
    for (const BenchCase& bench : case_table()) {
        if (bench.cools_to != nullptr) {
            for (const std::string& name : shape_number_names()) {
                all.push_back({{Kind::shape, bench.info.name, 0, 0, {}, name}, false, true});
            }
            continue;
        }
        if (bench.modes == 0) {
            all.push_back({{Kind::bench_case, bench.info.name}, bench.needs_feet});
        }
        for (int mode = 1; mode <= bench.modes; ++mode) {
            all.push_back({{Kind::mode, {}, mode}, bench.needs_feet});
        }
    }
    for (const BenchCase& bench : case_table()) {
        for (const std::string& name : strength_number_names()) {
            if (bench.loading) {
                NumberId number{Kind::strength, bench.info.name};
                number.strength_number = name;
                all.push_back({number, bench.needs_feet});
            }
        }
    }
    all.push_back({{Kind::shape, "mould", 0, 0, {}, "camber"}, false, true});
    for (const char* const name : pressed_names) {
        all.push_back({{Kind::shape, "pressed", 0, 0, {}, name}, false, true, true});
    }
    for (const std::string& edge : edge_number_names()) {
        all.push_back({{Kind::edge, {}, 0, 0, edge}, true});
    }
    return all;
}

std::optional<NumberId> at_station(const std::string& name) {
    for (const char* const bench : {"release", "cold"}) {
        if (const auto x = station_in(name, std::string(bench) + ".concavity")) {
            return NumberId{Kind::shape, bench, 0, *x, {}, "concavity"};
        }
    }
    for (const StationKind& known : station_kinds) {
        if (const auto x = station_in(name, known.name)) {
            return NumberId{known.kind, {}, 0, *x};
        }
    }
    return std::nullopt;
}

// "centre-flex at 60 mm", ".force" and others of it; "stance-twist bent 60 mm".
std::optional<NumberId> while_bent(const std::string& name) {
    for (const BenchCase& bench : case_table()) {
        if (!bends(bench.info.name)) {
            continue;
        }
        const bool twist = bench.unit == Unit::twist_stiffness;
        const std::string before = bench.info.name + (twist ? " bent " : " at ");
        if (!name.starts_with(before)) {
            continue;
        }
        double travel = 0;
        const char* end = name.data() + name.size();
        const auto read = std::from_chars(name.data() + before.size(), end, travel);
        std::string number(read.ptr, end);
        travel /= bench_unit(Unit::length).per_si;
        if (read.ec != std::errc{} || !(travel > 0 && travel <= most_travel) ||
            !number.starts_with(" mm")) {
            return std::nullopt;
        }
        number = number == " mm" ? ".stiffness" : number.substr(3);
        for (const char* const known : {"stiffness", "force", "tangent", "flattening"}) {
            if (number == std::string(".").append(known) && (!twist || number == ".stiffness")) {
                return NumberId{Kind::bent, bench.info.name, 0, 0, {}, {}, known, travel};
            }
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
    if (board.cure) {
        valid.insert(valid.end(), {"release.concavity@0", "cold.concavity@0"});
    }
    return "found \"" + name +
           "\"; accepted: mass, balance_point.x or .y, sidecut_radius, length, area, a static "
           "case, \"free-modes mode 1\" to \"mode 6\", \"nose-flex at 60 mm\", \"nose-twist "
           "bent 60 mm\", EI@X, GJ@X, thickness@X, edge.NAME, "
           "strength.CASE with .breaks or .travel" +
           std::string(board.cure ? ", release.NAME, cold.NAME, mould.camber, pressed.NAME" : "") +
           did_you_mean(name, valid);
}

// Beyond the contact stations bending in two directions makes it meaningless (eta is large there).
NumberFound cooled_at_station(const NumberId& number, const std::string& name, const Board& board) {
    const double tail = tail_contact(board);
    const double nose = nose_contact(board);
    if (!board.cure) {
        return {std::nullopt,
                "found \"" + name + "\", which needs a cure: the board has no [cure]"};
    }
    if (number.station >= tail && number.station <= nose) {
        return {number, ""};
    }
    const double per_si = bench_unit(Unit::length).per_si;
    return {std::nullopt,
            "found \"" + name + "\"; accepted: a station between the contact stations, " +
                number_text(tail * per_si) + " to " + number_text(nose * per_si) + " mm"};
}

} // namespace

std::vector<std::string> number_names(const Board& board) {
    std::vector<std::string> names;
    for (const Listed& listed : listed_numbers()) {
        if (listed.lacks(board).empty()) {
            names.push_back(number_name(listed.number));
        }
    }
    return names;
}

NumberFound find_number(const std::string& word, const Board& board) {
    const std::string name = word == "sidecut-radius" ? "sidecut_radius" : word; // its older name
    if (const auto request = at_station(name); request && request->kind == Kind::shape) {
        return cooled_at_station(*request, name, board);
    } else if (request) {
        return width_at(board.planform, request->station) > 0
                   ? NumberFound{request, ""}
                   : NumberFound{std::nullopt, off_the_board(name, board.planform)};
    }
    if (const auto bent = while_bent(name)) {
        NumberFound plain = find_number(bent->bench_case, board);
        return plain.request ? NumberFound{bent, ""} : plain;
    }
    for (const Listed& listed : listed_numbers()) {
        if (number_name(listed.number) == name) {
            const std::string lack = listed.lacks(board);
            return lack.empty()
                       ? NumberFound{listed.number, ""}
                       : NumberFound{std::nullopt, "found \"" + name + "\", which " + lack};
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

std::optional<Limit> limit_of(const Board& board, const NumberId& number) {
    const double per_si = bench_unit(unit_of(number)).per_si;
    const auto si = [&](const std::optional<double>& bound) {
        return bound ? std::optional(*bound / per_si) : std::nullopt;
    };
    std::optional<Limit> found;
    for (const auto& [name, limit] : board.limits) {
        if (find_number(name, board).request == number) {
            found = Limit{si(limit.min), si(limit.max)};
        }
    }
    return found;
}

std::vector<double> limited_hollows(const Board& board) {
    std::vector<NumberId> named;
    for (const auto& [name, limit] : board.limits) {
        if (const auto number = find_number(name, board).request) {
            named.push_back(*number);
        }
    }
    return concavity_stations(named);
}

std::vector<Problem> unknown_limits(const NamedBoard& read) {
    std::vector<Problem> problems;
    for (const auto& [name, limit] : read.board.limits) {
        if (name.starts_with("edge ")) {
            continue;
        }
        const NumberFound found = find_number(name, read.board);
        if (!found.request) {
            const std::string path = "limits." + name;
            const char* const bound = limit.max ? ".max" : ".min";
            problems.push_back({place_of(read.places, path + bound),
                                path + ": is held against nothing: " + found.wrong});
        }
    }
    return problems;
}

} // namespace vrid
