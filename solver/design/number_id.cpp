#include "solver/design/number_id.hpp"

#include <algorithm>
#include <array>

#include "mesh/board/lists.hpp"
#include "solver/cases/cases.hpp"
#include "solver/response/cooled_shape.hpp"

namespace vrid {

namespace {

using Kind = NumberId::Kind;

struct EdgeNumber {
    const char* name;
    Unit unit;
    bool position = false;
};

// As edge_numbers (solver/response) gives them; a test holds the two against each other.
constexpr std::array edge_table{
    EdgeNumber{"peak", Unit::line_force},           EdgeNumber{"peak_x", Unit::length, true},
    EdgeNumber{"contact_tail", Unit::length, true}, EdgeNumber{"contact_nose", Unit::length, true},
    EdgeNumber{"contact_length", Unit::length},     EdgeNumber{"effective_length", Unit::length},
    EdgeNumber{"share_nose", Unit::none},           EdgeNumber{"share_middle", Unit::none},
    EdgeNumber{"share_tail", Unit::none},           EdgeNumber{"loss_nose", Unit::angle},
    EdgeNumber{"loss_nose_twist", Unit::angle},     EdgeNumber{"loss_nose_across", Unit::angle},
    EdgeNumber{"loss_tail", Unit::angle},           EdgeNumber{"loss_tail_twist", Unit::angle},
    EdgeNumber{"loss_tail_across", Unit::angle},    EdgeNumber{"loss_mean", Unit::angle},
    EdgeNumber{"max_depth", Unit::length},          EdgeNumber{"turn_radius", Unit::radius},
    EdgeNumber{"roll_moment_front", Unit::moment},  EdgeNumber{"roll_moment_rear", Unit::moment},
};

EdgeNumber edge_number(const NumberId& number) {
    const auto found = std::ranges::find(edge_table, number.edge_number, &EdgeNumber::name);
    return found == edge_table.end() ? EdgeNumber{"", Unit::none} : *found;
}

Unit case_unit(const std::string& name) {
    for (const BenchCase& bench : case_table()) {
        if (bench.info.name == name) {
            return bench.unit;
        }
    }
    return Unit::none;
}

} // namespace

Unit unit_of(const NumberId& number) {
    switch (number.kind) {
    case Kind::mass:
        return Unit::mass;
    case Kind::balance_x:
    case Kind::balance_y:
    case Kind::thickness:
    case Kind::length:
        return Unit::length;
    case Kind::bench_case:
        return case_unit(number.bench_case);
    case Kind::sidecut_radius:
        return Unit::radius;
    case Kind::area:
        return Unit::area;
    case Kind::mode:
        return Unit::frequency;
    case Kind::EI:
    case Kind::GJ:
        return Unit::section_stiffness;
    case Kind::bent:
        return number.bent_number == "force"        ? Unit::force
               : number.bent_number == "flattening" ? Unit::length
                                                    : case_unit(number.bench_case);
    case Kind::strength: {
        const bool twist = case_unit(number.bench_case) == Unit::twist_stiffness;
        return number.strength_number == "travel" ? (twist ? Unit::angle : Unit::length)
                                                  : (twist ? Unit::moment : Unit::force);
    }
    case Kind::shape:
        return number.shape_number == "twist" ? Unit::angle : Unit::length;
    case Kind::edge:
        break;
    }
    return edge_number(number).unit;
}

bool is_position(const NumberId& number) {
    return number.kind == Kind::balance_x || number.kind == Kind::balance_y ||
           number.kind == Kind::shape || number.bent_number == "flattening" ||
           (number.kind == Kind::edge && edge_number(number).position);
}

std::vector<std::string> shape_number_names() {
    return {cooled_names.begin(), cooled_names.end()};
}

std::vector<std::string> strength_number_names() {
    return {"first", "breaks", "travel"};
}

std::vector<std::string> edge_number_names() {
    return each_of(edge_table, [](const EdgeNumber& one) { return std::string(one.name); });
}

} // namespace vrid
