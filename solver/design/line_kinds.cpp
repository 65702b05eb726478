#include "solver/design/line_kinds.hpp"

#include <algorithm>

#include "mesh/board/error.hpp"
#include "mesh/board/same_place.hpp"
#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

using Property = DesignProperty;

// Workshop steps (common practice, no source).
constexpr double line_step = 1e-3; // m
constexpr double metal_step = 1e-4;
constexpr double wall_step = 5e-4;
constexpr double stance_step = 5e-3;
constexpr double fullness_step = 0.02;

constexpr DesignKind one(Property property, double step, bool may_be_zero = false) {
    return {property, nullptr, DesignForm::value, step, may_be_zero, true, false, true};
}
constexpr DesignKind row(Property property, double step = line_step) {
    return {property, nullptr, DesignForm::station, step, true, true, false, true};
}

struct ShapeRow {
    DesignKind kind;
    double PlanformShape::*number;
};
constexpr std::array shape_rows{
    ShapeRow{one(Property::running_length, line_step), &PlanformShape::running_length},
    ShapeRow{one(Property::waist_width, line_step), &PlanformShape::waist_width},
    ShapeRow{one(Property::waist_x, line_step, true), &PlanformShape::waist_x},
    ShapeRow{one(Property::nose_width, line_step), &PlanformShape::nose_width},
    ShapeRow{one(Property::nose_length, line_step), &PlanformShape::nose_length},
    ShapeRow{one(Property::nose_fullness, fullness_step), &PlanformShape::nose_fullness},
    ShapeRow{one(Property::tail_width, line_step), &PlanformShape::tail_width},
    ShapeRow{one(Property::tail_length, line_step), &PlanformShape::tail_length},
    ShapeRow{one(Property::tail_fullness, fullness_step), &PlanformShape::tail_fullness},
};

struct StanceRow {
    DesignKind kind;
    double Stance::*number;
};
constexpr std::array stance_rows{
    StanceRow{one(Property::stance_width, stance_step), &Stance::width},
    StanceRow{one(Property::stance_setback, stance_step, true), &Stance::setback},
    StanceRow{one(Property::foot_length, stance_step), &Stance::foot_length},
    StanceRow{one(Property::foot_width, stance_step), &Stance::foot_width},
};

// Their places are told by their address: one of each.
constexpr DesignKind running_kind = one(Property::running_length, line_step);
constexpr DesignKind rectangle_kind = row(Property::rectangle);
constexpr DesignKind edge_width_kind = one(Property::edge_width, metal_step);
constexpr DesignKind edge_x_kind = row(Property::edge_x);
constexpr DesignKind flange_kind = one(Property::flange_width, metal_step);
constexpr DesignKind sidewall_width_kind = one(Property::sidewall_width, wall_step);
constexpr DesignKind sidewall_x_kind = row(Property::sidewall_x);
constexpr DesignKind spacer_kind = row(Property::tip_spacer_x);
constexpr DesignKind core_kind = row(Property::core_station);
constexpr DesignKind rest_kind = row(Property::rest_station);
constexpr DesignKind mould_kind = row(Property::mould_station);

struct ZoneRow {
    DesignKind alone, of_several;
    std::optional<Range> Zone::*range;
};
constexpr std::array zone_rows{
    ZoneRow{row(Property::zone_outline), row(Property::zones_outline), &Zone::outline},
    ZoneRow{row(Property::zone_x), row(Property::zones_x), &Zone::x},
    ZoneRow{row(Property::zone_y), row(Property::zones_y), &Zone::y},
};

class Places {
  public:
    explicit Places(std::vector<DesignPlace>& all) : all_(all) {}

    void add(const DesignKind& kind, double& number, std::size_t index = 0,
             const std::string& part = "") {
        DesignPlace place;
        place.id = {&kind, part, index};
        place.numbers = {&number};
        all_.push_back(std::move(place));
    }
    void add(const DesignKind& kind, std::optional<Range>& range) {
        if (range) {
            add(kind, (*range)[0], 0);
            add(kind, (*range)[1], 1);
        }
    }
    void add(const DesignKind& kind, std::vector<double>& stations) {
        for (std::size_t i = 0; i < stations.size(); ++i) {
            add(kind, stations[i], i);
        }
    }
    void add_coupon(Planform& planform) {
        for (const std::size_t which : {0, 1}) {
            DesignPlace place;
            place.id = {&rectangle_kind, "", which};
            place.coupon = &planform;
            all_.push_back(std::move(place));
        }
    }

  private:
    std::vector<DesignPlace>& all_;
};

void add_outline(Planform& planform, Places& places) {
    if (planform.shape) {
        for (const ShapeRow& row : shape_rows) {
            places.add(row.kind, (*planform.shape).*row.number);
        }
        return;
    }
    const auto coupon = coupon_size(planform);
    if (!coupon || planform.running_length < (*coupon)[0] - same_place) {
        places.add(running_kind, planform.running_length);
    }
    if (coupon) {
        places.add_coupon(planform);
    }
}

void add_zones(Layer& layer, Places& places) {
    const bool alone = layer.more_zones.empty();
    for (const ZoneRow& row : zone_rows) {
        const DesignKind& kind = alone ? row.alone : row.of_several;
        for (std::size_t k = 0; k <= layer.more_zones.size(); ++k) {
            Zone& zone = k == 0 ? layer.zone : layer.more_zones[k - 1];
            if (auto& range = zone.*row.range) {
                places.add(kind, (*range)[0], 2 * k, layer.name);
                places.add(kind, (*range)[1], 2 * k + 1, layer.name);
            }
        }
    }
}

void add_body(Board& board, Places& places) {
    if (board.edge) {
        places.add(edge_width_kind, board.edge->width);
        places.add(edge_x_kind, board.edge->x);
        if (board.edge->flange) {
            places.add(flange_kind, board.edge->flange->width);
        }
    }
    if (board.sidewall) {
        places.add(sidewall_width_kind, board.sidewall->width);
        places.add(sidewall_x_kind, board.sidewall->x);
    }
    if (board.stance) {
        for (const StanceRow& row : stance_rows) {
            places.add(row.kind, (*board.stance).*row.number);
        }
    }
    if (board.tip_spacer) {
        places.add(spacer_kind, board.tip_spacer->x[0], 0);
        places.add(spacer_kind, board.tip_spacer->x[1], 1);
    }
}

// What the reader of a board file holds true of stations, ranges and feet.
class Lines {
  public:
    void hold(bool good, const std::string& wrong) {
        if (!good) {
            problems.push_back({"shape", wrong});
        }
    }
    void rising(const std::optional<Range>& range, const std::string& what) {
        hold(!range || (*range)[0] < (*range)[1], what + ": its two places change order");
    }
    void rising(const std::vector<double>& x, const std::string& what) {
        hold(std::ranges::adjacent_find(x, std::greater_equal<>()) == x.end(),
             what + ": two stations meet");
    }
    std::vector<Problem> problems;
};

void check_feet(const Board& board, Lines& lines) {
    const Stance& stance = *board.stance;
    lines.hold(stance.width > stance.foot_length, "the feet overlap");
    const auto on_board = [&](double middle) {
        for (const double x : {middle - stance.foot_length / 2, middle + stance.foot_length / 2}) {
            for (const double y : {-stance.foot_width / 2, stance.foot_width / 2}) {
                if (!contains(board.planform, {x, y})) {
                    return false;
                }
            }
        }
        return true;
    };
    lines.hold(on_board(stance.front()) && on_board(stance.rear()),
               "a foot patch does not lie on the board");
    const double half = board.planform.running_length / 2;
    const double room = half - stance.foot_length / 2;
    lines.hold(stance.front() < room && stance.rear() > -room,
               "a foot is not between the contact lines");
}

void check_lines(const Board& board) {
    Lines lines;
    const std::array<double, 2> x = x_extent(board.planform);
    const double half = board.planform.running_length / 2;
    lines.hold(half > 0 && -half >= x[0] - same_place && half <= x[1] + same_place,
               "a contact station is not on the board");
    const double narrowest = std::min({width_at(board.planform, 0), width_at(board.planform, half),
                                       width_at(board.planform, -half)});
    if (board.edge) {
        const double band =
            board.edge->width + (board.edge->flange ? board.edge->flange->width : 0);
        lines.hold(band > 0 && band < narrowest / 2, "the edge and its flange are too wide");
        lines.rising(board.edge->x, "edge");
    }
    if (board.sidewall) {
        lines.hold(board.sidewall->width < narrowest / 2, "the sidewall is too wide");
        lines.rising(board.sidewall->x, "sidewall");
    }
    for (const Layer& layer : board.layers) {
        for (const Zone& zone : zones_of(layer)) {
            for (const ZoneRow& row : zone_rows) {
                lines.rising(zone.*row.range, "layer " + layer.name);
            }
        }
    }
    if (board.core) {
        lines.rising(board.core->thickness.x, "core");
    }
    if (board.rest_shape) {
        lines.rising(board.rest_shape->x, "rest shape");
    }
    if (board.cure && board.cure->mould) {
        lines.rising(board.cure->mould->x, "mould");
    }
    if (board.stance) {
        check_feet(board, lines);
    }
    throw_if_any(lines.problems);
}

} // namespace

void add_line_places(Board& board, std::vector<DesignPlace>& all) {
    Places places(all);
    add_outline(board.planform, places);
    add_body(board, places);
    for (Layer& layer : board.layers) {
        add_zones(layer, places);
    }
    if (board.core) {
        places.add(core_kind, board.core->thickness.x);
    }
    if (board.rest_shape) {
        places.add(rest_kind, board.rest_shape->x);
    }
    if (board.cure && board.cure->mould) {
        places.add(mould_kind, board.cure->mould->x);
    }
}

void redraw(Board& board) {
    if (board.planform.shape) {
        board.planform = parametric_planform(*board.planform.shape);
    }
    check_lines(board);
}

bool is_station(const DesignId& id) {
    switch (id.kind->property) {
    case DesignProperty::edge_x:
    case DesignProperty::sidewall_x:
    case DesignProperty::zone_x:
    case DesignProperty::zones_x:
    case DesignProperty::tip_spacer_x:
    case DesignProperty::core_station:
    case DesignProperty::rest_station:
    case DesignProperty::mould_station:
        return true;
    default:
        return false;
    }
}

void hold_waist(const Board& board, const Board& was) {
    const auto& shape = board.planform.shape;
    const auto& old = was.planform.shape;
    if (shape && old && old->waist_width <= std::min(old->nose_width, old->tail_width)) {
        const bool tail = shape->tail_width < shape->waist_width;
        if (tail || shape->nose_width < shape->waist_width) {
            throw InputError("planform",
                             std::string(tail ? "tail" : "nose") + " narrower than the waist");
        }
    }
}

std::optional<std::array<double, 2>> coupon_size(const Planform& planform) {
    if (planform.shape || planform.outline.size() != 4) {
        return std::nullopt;
    }
    const Eigen::Vector2d first = planform.outline.front().control[0];
    const std::array<double, 2> size{-2 * first.x(), -2 * first.y()};
    if (!(size[0] > 0 && size[1] > 0)) {
        return std::nullopt;
    }
    const Planform same = rectangle_planform(size[0], size[1]);
    for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t k = 0; k < 4; ++k) {
            if ((same.outline[i].control[k] - planform.outline[i].control[k]).norm() > 1e-12 ||
                planform.outline[i].radius > 0) {
                return std::nullopt;
            }
        }
    }
    return size;
}

void set_coupon_size(Planform& planform, std::size_t which, double value) {
    std::array<double, 2> size = *coupon_size(planform);
    const bool follows = planform.running_length >= size[0] - same_place;
    size[which] = value;
    const double running = planform.running_length;
    planform = rectangle_planform(size[0], size[1]);
    if (!follows) {
        planform.running_length = running;
    }
}

} // namespace vrid
