#include "solver/loaded_edge.hpp"

#include <algorithm>
#include <utility>

namespace vrid {

namespace {

HeldParts on_feet(const FootedPlate& plate) {
    HeldParts held;
    for (const auto* foot : {&plate.feet.rear, &plate.feet.front}) {
        Eigen::AlignedBox2d box;
        for (const int node : *foot) {
            box.extend(Eigen::Vector2d(plate.model.numbering.position.col(node)));
        }
        held.boxes.push_back(box);
    }
    for (const std::vector<int>& nodes : plate.model.numbering.quad_nodes) {
        const bool all = std::ranges::all_of(nodes, [&](int node) {
            return plate.factor.fixed[static_cast<std::size_t>(unknowns_per_node) *
                                          static_cast<std::size_t>(node) +
                                      comp_w] != 0;
        });
        held.quads.push_back(all ? 1 : 0);
    }
    return held;
}

} // namespace

LoadedEdges::LoadedEdges(const Board& board, EdgeOptions options, PlateModel model,
                         std::shared_ptr<const EliminationTree> tree)
    : options_(std::move(options)),
      plate_(on_its_feet(board, std::move(model), std::move(tree),
                         {options_.thread_count(), options_.memory.get()})),
      feet_(on_feet(plate_)), pass_(board, plate_, options_) {}

LoadedEdge LoadedEdges::at(const EdgeCondition& condition) {
    LoadedEdge edge{pass_.condition(condition, nullptr, seconds_), {}, feet_};
    if (!edge.result.no_equilibrium.empty()) {
        return edge;
    }
    pass_.add_motion(edge.result);
    edge.strain = condition.bent ? bent_strain_field(plate_.model, edge.result.motion)
                                 : strain_field(plate_.model, edge.result.motion);
    const EdgeCurve& curve = edge.result.curve;
    for (Eigen::Index i = 0; i < curve.q.size(); ++i) {
        if (curve.q(i) > 0) {
            edge.held.loaded.emplace_back(curve.x(i), curve.y(i));
        }
    }
    return edge;
}

} // namespace vrid
