#include "solver/laminate/stack.hpp"

#include "solver/laminate/layup.hpp"

namespace vrid {

std::vector<StackItem> stack_at(const Board& board, const Eigen::Vector2d& point) {
    return stack_at(make_layup<double>(board), point);
}

std::vector<StackItem> stack_at(const Layup<double>& layup, const Eigen::Vector2d& point) {
    const Board& board = *layup.board;
    const StackKey key = stack_key(layup, point);
    const double core = core_thickness(layup, point.x());
    const int base = key[layup.items.size()];
    std::vector<StackItem> stack;
    double z = 0;
    const auto add = [&](const std::string& name, const std::string& material, double angle,
                         double thickness) {
        stack.push_back({name, material, angle, z, z + thickness});
        z += thickness;
    };
    const auto plies_thickness = [](const LayupItem<double>& item) {
        double sum = 0;
        for (const Lamina<double>& ply : item.plies) {
            sum += ply.thickness;
        }
        return sum;
    };
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        const LayupItem<double>& item = layup.items[i];
        const double thickness = key[i] != 0 ? plies_thickness(item) : 0;
        if (i == 0 && (base == edge_only || base == edge_and_flange)) {
            add("edge", board.edge->material, 0,
                thickness + (base == edge_and_flange ? layup.flange.thickness : 0));
            continue;
        }
        if (key[i] != 0 && item.is_core) {
            const int variant = key.back();
            const std::string name = variant == layup.sidewall_variant ? "sidewall"
                                     : variant == layup.spacer_variant ? "tip spacer"
                                                                       : item.name;
            add(name, layup.core_names[static_cast<std::size_t>(variant)], 0, core);
        } else if (key[i] != 0) {
            add(item.name, item.made_of, item.angle, thickness);
        }
        if (i == 0 && base == base_and_flange) {
            add("flange", board.edge->material, 0, layup.flange.thickness);
        }
    }
    return stack;
}

} // namespace vrid
