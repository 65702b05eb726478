// Which layers there are at a point, and what they are made of there.
#include "solver/laminate/layup.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/zones.hpp"
#include "solver/laminate/stacking.hpp"

namespace vrid {

namespace {

bool in_ribbon(const Ribbon& ribbon, const Eigen::Vector2d& p) {
    const Eigen::Vector2d axis = ribbon.to - ribbon.from;
    const double length = axis.norm();
    const Eigen::Vector2d direction = axis / length;
    const Eigen::Vector2d offset = p - ribbon.from;
    const double along = offset.dot(direction);
    const double across = direction.x() * offset.y() - direction.y() * offset.x();
    return along >= 0 && along <= length && std::abs(across) <= ribbon.width / 2;
}

bool in_zone(const Zone& zone, const Eigen::Vector2d& p, double distance) {
    return inside(zone.x, p.x()) && inside(zone.y, p.y()) &&
           (!zone.ribbon || in_ribbon(*zone.ribbon, p)) && inside(zone.outline, distance) &&
           (zone.polygon.empty() || in_polygon(zone.polygon, p));
}

template <class T> int core_variant(const Layup<T>& layup, const Eigen::Vector2d& p) {
    const Board& board = *layup.board;
    if (board.tip_spacer && !inside(board.tip_spacer->x, p.x())) {
        return layup.spacer_variant;
    }
    const Core& core = *board.core;
    const bool right = p.y() < 0 && !core.strips_right.empty();
    const CoreHalf& half = right ? layup.right : layup.left;
    if (!core.resolve) {
        const auto stretch = std::ranges::upper_bound(half.breaks, p.x());
        return half.smeared[static_cast<std::size_t>(stretch - half.breaks.begin())];
    }
    const std::vector<Strip>& strips = right ? core.strips_right : core.strips;
    double total = 0;
    for (const Strip& strip : strips) {
        total += strip.width;
    }
    double y = std::fmod(std::abs(p.y()), total);
    std::size_t i = 0;
    while (i + 1 < strips.size() && y > strips[i].width) {
        y -= strips[i].width;
        ++i;
    }
    return inside(strips[i].x, p.x()) ? half.strip[i] : half.fill[i];
}

} // namespace

template <class T> StackKey stack_key(const Layup<T>& layup, const Eigen::Vector2d& point) {
    const Board& board = *layup.board;
    const double distance = layup.distance ? (*layup.distance)(point) : 0;
    StackKey key(layup.items.size() + 2, 0);
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        const LayupItem<T>& item = layup.items[i];
        const Eigen::Vector2d p(point.x(), item.mirrored ? -point.y() : point.y());
        const bool there = std::ranges::any_of(
            item.zones, [&](const Zone& zone) { return in_zone(zone, p, distance); });
        key[i] = there ? 1 : 0;
    }
    std::uint16_t& base = key[layup.items.size()];
    if (board.edge && inside(board.edge->x, point.x())) {
        const double flange = board.edge->flange ? board.edge->flange->width : 0;
        if (distance <= board.edge->width) {
            base = flange > 0 ? edge_and_flange : edge_only;
        } else if (distance <= board.edge->width + flange) {
            base = base_and_flange;
        }
    }
    if (board.core) {
        const bool wall = board.sidewall && inside(board.sidewall->x, point.x()) &&
                          distance <= board.sidewall->width;
        key.back() =
            static_cast<std::uint16_t>(wall ? layup.sidewall_variant : core_variant(layup, point));
    }
    return key;
}

template <class T>
std::vector<Lamina<T>> stack_laminae(const Layup<T>& layup, const StackKey& key, const T& core) {
    std::vector<Lamina<T>> stack;
    visit_stack(layup, key, core, [&](const StackPart<T>& part) {
        if (part.kind == PartKind::layer) {
            stack.insert(stack.end(), part.item->plies.begin(), part.item->plies.end());
        } else {
            stack.push_back(ply_of(part.kind, key, layup));
            stack.back().thickness = part.thickness;
        }
    });
    return stack;
}

template <class T> T core_thickness(const Layup<T>& layup, double x) {
    const auto& core = layup.board->core;
    return core ? value_at(core->thickness, layup.core_values, layup.core_slopes, x) : T(0);
}

template <class T> T core_thickness(const Layup<T>& layup, const Eigen::Vector2d& point) {
    const auto& core = layup.board->core;
    const T along = core_thickness(layup, point.x());
    if (!core || !core->cross) {
        return along;
    }
    return along + T(value_at(*core->cross, {}, point.y())); // linear: no slopes
}

int SectionCache::stack_index(const Eigen::Vector2d& point) {
    StackKey key = stack_key(*layup_, point);
    const auto [found, fresh] = index_.try_emplace(std::move(key), static_cast<int>(keys_.size()));
    if (fresh) {
        keys_.push_back(found->first);
        sections_.emplace_back();
    }
    return found->second;
}

const Section<double>& SectionCache::section(int stack, const Eigen::Vector2d& point) {
    constexpr double quantum = 1e-13;
    const auto step =
        static_cast<std::int64_t>(std::llround(core_thickness(*layup_, point) / quantum));
    auto& known = sections_[static_cast<std::size_t>(stack)];
    const auto found = known.find(step);
    if (found != known.end()) {
        return found->second;
    }
    const double core = static_cast<double>(step) * quantum;
    return known
        .emplace(step, vrid::section(
                           stack_laminae(*layup_, keys_[static_cast<std::size_t>(stack)], core)))
        .first->second;
}

template StackKey stack_key(const Layup<double>&, const Eigen::Vector2d&);
template std::vector<Lamina<double>> stack_laminae(const Layup<double>&, const StackKey&,
                                                   const double&);
template std::vector<Lamina<Dual>> stack_laminae(const Layup<Dual>&, const StackKey&, const Dual&);
template double core_thickness(const Layup<double>&, double);
template Dual core_thickness(const Layup<Dual>&, double);
template double core_thickness(const Layup<double>&, const Eigen::Vector2d&);
template Dual core_thickness(const Layup<Dual>&, const Eigen::Vector2d&);

} // namespace vrid
