#include "mesh/mesh_lines.hpp"

#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

// Numbers in a row. Of what may be absent and of lists the count goes before.
struct Row {
    std::vector<double> all;

    void add(double value) { all.push_back(value); }
    void add(const Eigen::Vector2d& point) { all.insert(all.end(), {point.x(), point.y()}); }
    void add(const Range& range) { all.insert(all.end(), range.begin(), range.end()); }
    void add(const std::vector<double>& values) {
        add(static_cast<double>(values.size()));
        all.insert(all.end(), values.begin(), values.end());
    }
    template <class T> void add(const std::optional<T>& value) {
        add(value ? 1.0 : 0.0);
        if (value) {
            add(*value);
        }
    }
    void add(const OutlinePiece& piece) {
        for (const Eigen::Vector2d& point : piece.control) {
            add(point);
        }
        add(piece.centre);
        all.insert(all.end(), {piece.radius, piece.angle_from, piece.angle_to,
                               piece.corner_at_start ? 1.0 : 0.0});
    }
    void add(const Ribbon& ribbon) {
        add(ribbon.from);
        add(ribbon.to);
        add(ribbon.width);
    }
    void add(const Zone& zone) {
        add(zone.x);
        add(zone.y);
        add(zone.ribbon);
        add(zone.outline);
        add_each(zone.polygon);
    }
    void add(const Layer& layer) {
        add_each(zones_of(layer));
        add(layer.mirror ? 1.0 : 0.0);
    }
    void add(const Strip& strip) {
        add(strip.width);
        add(strip.x);
    }
    void add(const Core& core) {
        add(core.thickness.interpolation == Interpolation::smooth ? 1.0 : 0.0);
        add(core.thickness.x);
        add_each(core.strips);
        add_each(core.strips_right);
        add(core.cross ? core.cross->x : std::vector<double>{});
        add(core.resolve ? 1.0 : 0.0);
    }
    void add(const TipSpacer& spacer) { add(spacer.x); }
    void add(const Flange& flange) { add(flange.width); }
    void add(const Edge& edge) {
        add(edge.width);
        add(edge.x);
        add(edge.flange);
    }
    void add(const Sidewall& sidewall) {
        add(sidewall.width);
        add(sidewall.x);
    }
    void add(const Stance& stance) {
        all.insert(all.end(),
                   {stance.width, stance.setback, stance.foot_length, stance.foot_width});
    }
    template <class T> void add_each(const std::vector<T>& parts) {
        add(static_cast<double>(parts.size()));
        for (const T& part : parts) {
            add(part);
        }
    }
};

} // namespace

std::vector<double> mesh_lines(const Board& board) {
    Row row;
    row.add_each(board.planform.outline);
    row.add(board.planform.running_length);
    for (const auto& [tail, nose] : edge_contacts(board.planform)) {
        row.add(tail);
        row.add(nose);
    }
    row.add_each(board.layers);
    row.add(board.core);
    row.add(board.tip_spacer);
    row.add(board.edge);
    row.add(board.sidewall);
    row.add(board.stance);
    row.add(board.rest_shape ? board.rest_shape->x : std::vector<double>{});
    return row.all;
}

} // namespace vrid
