#include "solver/laminate/stack.hpp"

#include "solver/laminate/layup.hpp"
#include "solver/laminate/stacking.hpp"

namespace vrid {

std::vector<StackItem> stack_at(const Board& board, const Eigen::Vector2d& point) {
    return stack_at(make_layup<double>(board), point);
}

std::vector<StackItem> stack_at(const Layup<double>& layup, const Eigen::Vector2d& point) {
    const Board& board = *layup.board;
    const StackKey key = stack_key(layup, point);
    const double core = core_thickness(layup, point);
    std::vector<StackItem> stack;
    double z = 0;
    visit_stack(layup, key, core, [&](const StackPart<double>& part) {
        const bool metal = part.kind == PartKind::edge || part.kind == PartKind::flange;
        const bool layer = part.kind == PartKind::layer;
        const std::string& made_of = metal   ? board.edge->material
                                     : layer ? part.item->made_of
                                             : layup.core_names[key.back()];
        const double angle = layer ? part.item->angle : 0;
        const std::string word = word_of(part.kind);
        const std::string& name = word.empty() ? part.item->name : word;
        stack.push_back({name, made_of, angle, z, z + part.thickness});
        z += part.thickness;
    });
    return stack;
}

} // namespace vrid
