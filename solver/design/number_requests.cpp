#include "solver/design/number_requests.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "mesh/board/lists.hpp"
#include "solver/bend.hpp"
#include "solver/cases/cases.hpp"
#include "solver/cooling/mould.hpp"
#include "solver/design/plain_numbers.hpp"
#include "solver/study.hpp"

namespace vrid {

namespace {

using Kind = NumberId::Kind;

} // namespace

bool is_of_mould(const NumberId& request) {
    return request.bench_case == "mould" || request.bench_case == "pressed";
}

bool in_study(const NumberId& request) {
    return request.kind == Kind::bench_case || request.kind == Kind::mode ||
           request.kind == Kind::shape || request.kind == Kind::bent;
}

std::string case_of(const NumberId& request) {
    return request.kind == Kind::mode ? "free-modes"
           : is_of_mould(request)     ? "release"
                                      : request.bench_case;
}

std::vector<std::string> cases_of(const std::vector<NumberId>& requests) {
    std::vector<std::string> cases;
    for (const NumberId& request : requests) {
        const std::string name = in_study(request) ? case_of(request) : "";
        if (!name.empty() && !contains(cases, name)) {
            cases.push_back(name);
        }
    }
    return cases;
}

std::vector<double> travels_of(const std::vector<NumberId>& requests) {
    std::vector<double> travels;
    for (const NumberId& request : requests) {
        if (request.kind == Kind::bent) {
            travels.push_back(request.travel);
        }
    }
    sort_distinct(travels);
    return travels;
}

std::vector<std::string> bent_numbers_of(const std::vector<NumberId>& requests) {
    std::set<std::string> names;
    for (const NumberId& request : requests) {
        if (request.kind == Kind::bent) {
            names.insert(request.bent_number);
        }
    }
    return {names.begin(), names.end()};
}

std::vector<double> concavity_stations(const std::vector<NumberId>& requests) {
    std::vector<double> stations;
    for (const NumberId& request : requests) {
        if (request.kind == Kind::shape && request.shape_number == "concavity") {
            stations.push_back(request.station);
        }
    }
    return stations;
}

std::vector<NumberId> plain_requests(const Board& board) {
    std::vector<NumberId> all{{Kind::mass},           {Kind::balance_x}, {Kind::balance_y},
                              {Kind::sidecut_radius}, {Kind::length},    {Kind::area}};
    if (!std::isfinite(plain_number(board, {Kind::sidecut_radius}).value)) { // straight sides
        std::erase(all, NumberId{Kind::sidecut_radius});
    }
    for (const std::string& name : possible_cases(board)) {
        const BenchCase& bench = bench_of(name);
        if (bench.cools_to != nullptr) {
            for (const std::string& number : shape_number_names()) {
                all.push_back({Kind::shape, name, 0, 0, {}, number});
            }
            continue;
        }
        if (bench.modes == 0) {
            all.push_back({Kind::bench_case, name});
        }
        for (int mode = 1; mode <= bench.modes; ++mode) {
            all.push_back({Kind::mode, {}, mode});
        }
    }
    if (board.cure && board.cure->mould) {
        for (const char* const number : pressed_names) {
            all.push_back({Kind::shape, "pressed", 0, 0, {}, number});
        }
    }
    return all;
}

std::vector<NumberId> bent_requests(const Board& board, const std::vector<double>& travels) {
    std::vector<NumberId> all;
    for (const std::string& name : possible_cases(board)) {
        if (!bends(name)) {
            continue;
        }
        const bool twist = unit_of({Kind::bench_case, name}) == Unit::twist_stiffness;
        for (const double travel : travels) {
            for (const char* const number : {"stiffness", "force", "tangent", "flattening"}) {
                if (!twist || number == std::string("stiffness")) {
                    all.push_back({Kind::bent, name, 0, 0, {}, {}, number, travel});
                }
            }
        }
    }
    return all;
}

} // namespace vrid
