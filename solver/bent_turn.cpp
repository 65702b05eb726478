#include "solver/bent_turn.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/same_place.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

// Nodes that a case turns: those it moves, and those that stand beside them at the middle.
std::vector<int> turned_nodes(const PlateModel& model, const Loading& loading) {
    std::vector<int> nodes;
    std::vector<double> stations;
    for (int node = 0; node < model.numbering.nodes; ++node) {
        if (loading.motion(unknown(node, comp_w)) != 0 ||
            loading.motion(unknown(node, comp_by)) != 0) {
            stations.push_back(model.numbering.position(0, node));
        }
    }
    for (int node = 0; node < model.numbering.nodes; ++node) {
        const bool held = loading.fixed[static_cast<std::size_t>(unknown(node, comp_w))] != 0;
        if (held && std::ranges::any_of(stations, [&](double x) {
                return std::abs(x - model.numbering.position(0, node)) < same_place;
            })) {
            nodes.push_back(node);
        }
    }
    return nodes;
}

bool turns_along(const Loading& loading, int node) {
    return loading.fixed[static_cast<std::size_t>(unknown(node, comp_by))] != 0;
}

} // namespace

Loading turn_while_bent(const Board& board, const PlateModel& model, const BenchCase& twist,
                        const VectorXd& u) {
    Loading loading = twist.loading(board, model);
    for (const int node : turned_nodes(model, loading)) {
        loading.motion(unknown(node, comp_w)) =
            model.numbering.position(1, node) + u(unknown(node, comp_v));
        if (turns_along(loading, node)) {
            const RestFrame frame = frame_at(model, node);
            const double bx = u(unknown(node, comp_bx));
            const double by = u(unknown(node, comp_by));
            const double c = std::sqrt(1 - bx * bx - by * by);
            loading.motion(unknown(node, comp_bx)) = frame.S * by;
            loading.motion(unknown(node, comp_by)) = -(c * frame.C + bx * frame.S);
        }
    }
    return loading;
}

VectorXd owed_to_place(const PlateModel& model, const Loading& turn, const VectorXd& u,
                       const VectorXd& forces) {
    VectorXd owed = VectorXd::Zero(u.size());
    for (const int node : turned_nodes(model, turn)) {
        owed(unknown(node, comp_v)) += 2 * forces(unknown(node, comp_w));
        if (turns_along(turn, node)) {
            const RestFrame frame = frame_at(model, node);
            const double bx = u(unknown(node, comp_bx));
            const double by = u(unknown(node, comp_by));
            const double c = std::sqrt(1 - bx * bx - by * by);
            const double on_bx = forces(unknown(node, comp_bx));
            const double on_by = forces(unknown(node, comp_by));
            owed(unknown(node, comp_bx)) += 2 * on_by * (frame.C * bx / c - frame.S);
            owed(unknown(node, comp_by)) += 2 * (on_bx * frame.S + on_by * frame.C * by / c);
        }
    }
    return owed;
}

} // namespace vrid
