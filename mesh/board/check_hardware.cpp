#include "mesh/board/check_board.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "mesh/board/check_zones.hpp"
#include "mesh/board/rest_shape.hpp"

namespace vrid {

namespace {

using Faults = std::vector<BoardFault>;

// The narrowest width in the middle half of the running length: two bands wider than this would
// meet there. Tips are left out; bands always meet in them. [m]
double narrowest_middle(const Planform& planform) {
    constexpr int steps = 40;
    double least = width_at(planform, 0);
    for (int i = 0; i <= steps; ++i) {
        const double x = planform.running_length * (0.5 * i / steps - 0.25);
        least = std::min(least, width_at(planform, x));
    }
    return least;
}

void check_band(double width, double with_flange, const Planform* planform, PartCheck& check) {
    if (planform == nullptr || !std::isfinite(with_flange)) {
        return;
    }
    const double most = narrowest_middle(*planform) / 2;
    if (most > 0 && with_flange >= most) {
        check.note(Fault::wide_band, "width", {width}, {most});
    }
}

void check_edge(const Board& board, const Planform* planform, Faults& faults) {
    const Edge& edge = *board.edge;
    PartCheck check(faults, {PartOfBoard::edge});
    check.known("material", edge.material, board.materials);
    check.positive("width", edge.width);
    check_stations(edge.x, planform, check);
    double band = edge.width;
    if (edge.flange) {
        PartCheck flange = check.in("flange");
        flange.positive("width", edge.flange->width);
        flange.positive("thickness", edge.flange->thickness);
        flange.share("fill", edge.flange->fill);
        band += edge.flange->width;
    }
    check_band(edge.width, band, planform, check);
}

void check_sidewall(const Board& board, const Planform* planform, Faults& faults) {
    const Sidewall& sidewall = *board.sidewall;
    PartCheck check(faults, {PartOfBoard::sidewall});
    if (!has_core_layer(board)) {
        check.note(Fault::no_core_layer, "");
    }
    check.known("material", sidewall.material, board.materials);
    check.positive("width", sidewall.width);
    check_stations(sidewall.x, planform, check);
    check_band(sidewall.width, sidewall.width, planform, check);
}

void check_tip_spacer(const Board& board, Faults& faults) {
    PartCheck check(faults, {PartOfBoard::tip_spacer});
    if (!has_core_layer(board)) {
        check.note(Fault::no_core_layer, "");
    }
    check.known("material", board.tip_spacer->material, board.materials);
    check.range("x", board.tip_spacer->x);
}

bool foot_on_board(const Planform& planform, const Stance& stance, double middle) {
    for (const double x : {middle - stance.foot_length / 2, middle + stance.foot_length / 2}) {
        for (const double y : {-stance.foot_width / 2, stance.foot_width / 2}) {
            if (!contains(planform, {x, y})) {
                return false;
            }
        }
    }
    return true;
}

// Width of the widest patch about the long axis that lies on the board at a foot's two ends; 0 for
// a foot that reaches beyond the contact stations, where it is the stance that is too wide.
double widest_patch(const Planform& planform, const Stance& stance, double middle) {
    double most = std::numeric_limits<double>::infinity();
    for (const double x : {middle - stance.foot_length / 2, middle + stance.foot_length / 2}) {
        const auto y = y_extent(planform, x);
        const bool inside = y && std::abs(x) <= planform.running_length / 2;
        most = std::min(most, inside ? 2 * std::min(-(*y)[0], (*y)[1]) : 0.0);
    }
    return most;
}

void check_feet(const Stance& stance, const Planform& planform, PartCheck& check) {
    double widest = std::numeric_limits<double>::infinity();
    for (const auto& [middle, off] : {std::pair(stance.front(), Fault::front_foot_off),
                                      std::pair(stance.rear(), Fault::rear_foot_off)}) {
        if (foot_on_board(planform, stance, middle)) {
            continue;
        }
        const double most = widest_patch(planform, stance, middle);
        if (most > 0 && most < stance.foot_width) {
            widest = std::min(widest, most);
        } else {
            check.note(off, "width", {stance.width});
        }
    }
    if (std::isfinite(widest)) {
        check.note(Fault::wide_foot, "foot_width", {stance.foot_width}, {widest});
    }
}

void check_stance(const Stance& stance, const Planform* planform, Faults& faults) {
    PartCheck check(faults, {PartOfBoard::stance});
    const bool width = check.positive("width", stance.width);
    const bool setback = check.finite("setback", stance.setback);
    const bool length = check.positive("foot_length", stance.foot_length);
    const bool across = check.positive("foot_width", stance.foot_width);
    if (width && length && stance.width <= stance.foot_length) {
        check.note(Fault::feet_overlap, "width", {stance.width}, {stance.foot_length});
    }
    if (planform != nullptr && width && setback && length && across) {
        check_feet(stance, *planform, check);
    }
}

void check_mass_only(const Board& board, Faults& faults) {
    const MassOnly& mass = board.mass_only;
    PartCheck check(faults, {PartOfBoard::mass_only});
    check.not_negative("resin", mass.resin);
    check.not_negative("inserts_per_foot", mass.inserts_per_foot);
    const bool weight = check.not_negative("insert_mass", mass.insert_mass);
    if (mass.inserts_per_foot > 0 && weight && mass.insert_mass == 0) {
        check.note(Fault::inserts_without_mass, "inserts_per_foot");
    }
    if (mass.inserts_per_foot > 0 && !board.stance) {
        check.note(Fault::inserts_without_stance, "inserts_per_foot");
    }
}

// Before its first and behind its last station the surface lies level unless it rises there: a
// curve that ends steeply inside the board, falling outwards, would be folded.
void check_fold(const Profile& shape, const Planform& planform, PartCheck& check) {
    constexpr double sharpest = 0.1;  // of slope; camber that ends at the contact lines has 0.02
    constexpr double near_tip = 0.01; // [m]
    const RestShape rest{shape, smooth_slopes(shape)};
    const auto [tail, nose] = x_extent(planform);
    const double middle = (shape.x.front() + shape.x.back()) / 2;
    for (const double x : {shape.x.front(), shape.x.back()}) {
        const double fold = std::abs(rest.frame(x, middle).S - rest.frame(x, 2 * x - middle).S);
        if (x > tail + near_tip && x < nose - near_tip && fold > sharpest) {
            check.note(Fault::folded_surface, "z", {}, {x, fold, sharpest});
        }
    }
}

// Stations are along the surface: a rise of more than their distance is impossible, and where it is
// nearly as much, the surface stands upright.
void check_rest_shape(const Profile& shape, const Planform* planform, Faults& faults) {
    constexpr double upright = 0.95;
    PartCheck check(faults, {PartOfBoard::rest_shape});
    if (!check.profile("z", shape) || shape.x.size() < 2) {
        return;
    }
    if (const Steepest found = steepest(shape); !(found.slope < upright)) {
        check.note(Fault::steep_surface, "z", {}, {found.slope, found.x, upright});
    } else if (planform != nullptr) {
        check_fold(shape, *planform, check);
    }
}

} // namespace

bool has_core_layer(const Board& board) {
    return std::ranges::any_of(board.layers,
                               [](const Layer& layer) { return layer.kind == LayerKind::core; });
}

void check_hardware(const Board& board, const Planform* planform, std::vector<BoardFault>& faults) {
    if (board.tip_spacer) {
        check_tip_spacer(board, faults);
    }
    if (board.edge) {
        check_edge(board, planform, faults);
    }
    if (board.sidewall) {
        check_sidewall(board, planform, faults);
    }
    if (board.stance) {
        check_stance(*board.stance, planform, faults);
    }
    check_mass_only(board, faults);
    if (board.rest_shape) {
        check_rest_shape(*board.rest_shape, planform, faults);
    }
}

} // namespace vrid
