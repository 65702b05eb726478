#include "solver/cooling/shape_numbers.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "mesh/board/lists.hpp"
#include "solver/cases/cases.hpp"

namespace vrid {

namespace {

using Term = ShapeNumber::Term;
using Terms = std::vector<Term>;

void add(Terms& terms, const Terms& more, double factor) {
    for (const Term& term : more) {
        terms.push_back({term.point, factor * term.factor});
    }
}

// The board's lowest and highest y at a station; at a tip both are where it ends.
std::array<double, 2> edges_at(const Board& board, double x) {
    constexpr double inwards = 1e-9; // of the half length
    if (const auto y = y_extent(board.planform, x)) {
        return *y;
    }
    const auto [tail, nose] = x_extent(board.planform);
    const double middle = (tail + nose) / 2;
    return y_extent(board.planform, middle + (1 - inwards) * (x - middle))
        .value_or(std::array<double, 2>{0, 0});
}

// The sides of a notch that the axis runs in at a station, as that of a swallow tail.
std::optional<std::array<Vector2d, 2>> notch_at(const Board& board, double x) {
    constexpr double inwards = 1e-6; // of the length: two tips alike end together
    const auto [tail, nose] = x_extent(board.planform);
    const double aside = inwards * (nose - tail);
    const double inside = std::clamp(x, tail + aside, nose - aside);
    const std::vector<OutlinePlace> sides = crossings(board.planform, inside);
    for (std::size_t k = 1; k + 1 < sides.size(); k += 2) {
        const Vector2d right = point_at(board.planform, sides[k]);
        const Vector2d left = point_at(board.planform, sides[k + 1]);
        if (right.y() < 0 && left.y() > 0) {
            return std::array<Vector2d, 2>{right, left};
        }
    }
    return std::nullopt;
}

// Slope of the chord from edge to edge.
Terms chord_slope(const Board& board, double x) {
    const auto [right, left] = edges_at(board, x);
    return {{Vector2d(x, left), 1 / (left - right)}, {Vector2d(x, right), -1 / (left - right)}};
}

// The chord where it crosses the axis: the mean of both edges where these are as far away.
Terms chord(const Board& board, double x) {
    const auto [right, left] = edges_at(board, x);
    const double y = std::clamp(0.0, right, left);
    const double share = (y - right) / (left - right); // of the left edge
    return {{Vector2d(x, left), share}, {Vector2d(x, right), 1 - share}};
}

// How far a station is from the tail's contact station to the nose's, along the floor: what a turn
// of the whole board about an axis across it moves in proportion.
double share_of_nose(const Board& board, const RestShape* rest, double x) {
    const auto place = [&](double at) { return rest != nullptr ? rest->place(at) : at; };
    const double tail = place(tail_contact(board));
    return (place(x) - tail) / (place(nose_contact(board)) - tail);
}

// A roll of the whole board, the mean of both chords' slopes, moves points off the axis.
void take_out_roll(const Board& board, Terms& terms) {
    double arm = 0;
    for (const Term& term : terms) {
        arm += term.factor * term.point.y();
    }
    for (const double x : {tail_contact(board), nose_contact(board)}) {
        add(terms, chord_slope(board, x), -arm / 2);
    }
}

// Something at station x above the line through the same thing at the contact stations.
template <class At>
Terms above_line(const Board& board, const RestShape* rest, double x, const At& at) {
    const double share = share_of_nose(board, rest, x);
    Terms terms = at(board, x);
    add(terms, at(board, tail_contact(board)), share - 1);
    add(terms, at(board, nose_contact(board)), -share);
    take_out_roll(board, terms); // tips of unlike halves lie off the axis
    return terms;
}

Terms twist(const Board& board) {
    Terms terms = chord_slope(board, nose_contact(board));
    add(terms, chord_slope(board, tail_contact(board)), -1);
    return terms;
}

Terms hollow(const Board& board, double x) {
    Terms terms = axis(board, x);
    add(terms, chord(board, x), -1);
    return terms;
}

std::vector<double> concavity_stations(const Board& board, const std::vector<double>& more) {
    std::vector<double> stations{tail_contact(board), 0, nose_contact(board)};
    if (board.stance) {
        stations.push_back(board.stance->rear());
        stations.push_back(board.stance->front());
    }
    stations.insert(stations.end(), more.begin(), more.end());
    sort_distinct(stations);
    const auto outside = [&](double x) {
        return x < tail_contact(board) || x > nose_contact(board);
    };
    stations.erase(std::remove_if(stations.begin(), stations.end(), outside), stations.end());
    return stations;
}

} // namespace

// On the long axis, in a notch on the straight line from side to side, else where the board comes
// nearest to the axis.
std::vector<ShapeNumber::Term> axis(const Board& board, double x) {
    if (const auto notch = notch_at(board, x)) {
        const auto& [right, left] = *notch;
        const double share = -right.y() / (left.y() - right.y()); // of the left side
        return {{right, 1 - share}, {left, share}};
    }
    const auto [right, left] = edges_at(board, x);
    return {{Vector2d(x, std::clamp(0.0, right, left)), 1}};
}

ShapeNumber free_rise(const Board& board, const RestShape* rest, const Vector2d& point) {
    const double tail = tail_contact(board);
    const double nose = nose_contact(board);
    const double share = share_of_nose(board, rest, point.x());
    Terms terms{{point, 1}};
    add(terms, axis(board, tail), share - 1);
    add(terms, axis(board, nose), -share);
    take_out_roll(board, terms);
    return {"rise", point.x(), Unit::length, terms};
}

std::vector<ShapeNumber> shape_numbers(const Board& board, const RestShape* rest,
                                       const std::vector<double>& concavity) {
    const auto [tail, nose] = x_extent(board.planform);
    std::vector<ShapeNumber> all{
        {"camber", {}, Unit::length, above_line(board, rest, 0, axis)},
        {"camber_edge", {}, Unit::length, above_line(board, rest, 0, chord)},
        {"nose_height", {}, Unit::length, above_line(board, rest, nose, axis)},
        {"tail_height", {}, Unit::length, above_line(board, rest, tail, axis)}};
    for (const double x : concavity_stations(board, concavity)) {
        all.push_back({"concavity", x, Unit::length, hollow(board, x)});
    }
    all.push_back({"twist", {}, Unit::angle, twist(board)});
    return all;
}

Eigen::MatrixXd shape_loads(const MeshPlaces& places, const std::vector<ShapeNumber>& numbers) {
    const PlateModel& model = places.model();
    std::map<std::array<double, 2>, MeshPlace> known;
    Eigen::MatrixXd loads =
        Eigen::MatrixXd::Zero(model.unknowns(), static_cast<Eigen::Index>(numbers.size()));
    for (std::size_t k = 0; k < numbers.size(); ++k) {
        for (const Term& term : numbers[k].terms) {
            const std::array<double, 2> at{term.point.x(), term.point.y()};
            auto found = known.find(at);
            if (found == known.end()) {
                found = known.emplace(at, places.at(term.point)).first;
            }
            add_rise(model, found->second, term.factor, loads.col(static_cast<Eigen::Index>(k)));
        }
    }
    return loads;
}

} // namespace vrid
