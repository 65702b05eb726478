#include "solver/design/plain_numbers.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <utility>

#include "mesh/board/lists.hpp"
#include "solver/design/shape_change.hpp"
#include "solver/design/study_weights.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/mass.hpp"

namespace vrid {

using Kind = NumberId::Kind;

bool needs_no_mesh(const NumberId& request) {
    constexpr std::array kinds{Kind::mass, Kind::balance_x, Kind::balance_y,      Kind::EI,
                               Kind::GJ,   Kind::thickness, Kind::sidecut_radius, Kind::length,
                               Kind::area};
    return contains(kinds, request.kind);
}

Quantity plain_number(const Board& board, const NumberId& request) {
    const auto of = [&](double value) { return Quantity{value, 0, unit_of(request)}; };
    const Planform& planform = board.planform;
    switch (request.kind) {
    case Kind::sidecut_radius: {
        const auto radius = sidecut_radius(planform);
        return of(std::min(radius[0], radius[1]));
    }
    case Kind::length: {
        const auto x = x_extent(planform);
        return of(x[1] - x[0]);
    }
    case Kind::area:
        return of(area(planform));
    case Kind::mass:
        return mass_quantity(board_mass(board));
    case Kind::balance_x:
        return of(board_mass(board).x);
    case Kind::balance_y:
        return of(board_mass(board).y);
    default:
        break;
    }
    const CrossSection section = cross_section(board, request.station);
    return of(request.kind == Kind::EI   ? section.EI
              : request.kind == Kind::GJ ? section.GJ
                                         : section.thickness);
}

namespace {

std::vector<double> plain_values(const Board& board, const std::vector<NumberId>& requests) {
    std::vector<double> values;
    const MassReport mass = board_mass(board);
    for (const NumberId& request : requests) {
        values.push_back(request.kind == Kind::mass        ? mass.mass
                         : request.kind == Kind::balance_x ? mass.x
                         : request.kind == Kind::balance_y ? mass.y
                                                           : plain_number(board, request).value);
    }
    return values;
}

} // namespace

MatrixXd plain_shape_slopes(const Board& board, const std::vector<NumberId>& requests,
                            const std::vector<LineValue>& lines) {
    constexpr double coarse = 1e-5; // integrals across the board are rounded to 1e-12 or so
    MatrixXd slopes(static_cast<Index>(requests.size()), static_cast<Index>(lines.size()));
    for (Index i = 0; i < slopes.cols(); ++i) {
        const ShapeChange change = shape_change(board, lines[static_cast<std::size_t>(i)], coarse);
        const std::vector<double> below = plain_values(*change.below, requests);
        const std::vector<double> above = plain_values(*change.above, requests);
        for (Index k = 0; k < slopes.rows(); ++k) {
            const auto at = static_cast<std::size_t>(k);
            const double difference = above[at] - below[at];
            slopes(k, i) = std::isfinite(difference) ? difference / change.width : 0;
        }
    }
    return slopes;
}

namespace {

constexpr double no_place = 1e-12; // [m]

} // namespace

void clear_rounding(const DesignBoard& design, BoardNumbers& found) {
    for (BoardNumber& number : found.numbers) {
        if (number.request.kind != Kind::balance_x && number.request.kind != Kind::balance_y) {
            continue;
        }
        for (Index i = 0; i < number.slope.size(); ++i) {
            const double step = workshop_step(design.values[static_cast<std::size_t>(i)]);
            if (std::abs(number.slope(i)) * step < no_place) {
                number.slope(i) = 0;
            }
        }
    }
}

using Kind = NumberId::Kind;

std::vector<StationNumber> station_numbers(const Board& board,
                                           const std::vector<NumberId>& requests, bool weights) {
    const Layup<double> layup = make_layup<double>(board);
    std::map<double, std::pair<CrossSection, SectionWeights>> known;
    std::vector<StationNumber> all;
    for (const NumberId& request : requests) {
        const auto [here, fresh] = known.try_emplace(request.station);
        auto& [section, owed] = here->second;
        if (fresh) {
            section = cross_section(layup, request.station);
            if (weights) {
                owed = cross_section_weights(layup, request.station);
            }
        }
        StationNumber number{request.kind == Kind::EI   ? section.EI
                             : request.kind == Kind::GJ ? section.GJ
                                                        : section.thickness,
                             nullptr};
        if (weights && request.kind != Kind::thickness) {
            number.weights = std::make_shared<const SectionWeights>(
                columns_of(owed, {request.kind == Kind::EI ? 0 : 1}));
        }
        all.push_back(std::move(number));
    }
    return all;
}

} // namespace vrid
