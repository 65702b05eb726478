#include "solver/design/free_board.hpp"

#include <algorithm>

namespace vrid {

namespace {

using Eigen::Index;

bool is_scale(const std::string& path) {
    return path.ends_with("_scale");
}

// Under which paths design_board(board_at(start)) has what was one value of the start.
std::vector<std::string> paths_of_answer(const Board& start, const std::string& path) {
    for (const auto& [name, fabric] : start.fabrics) {
        const std::string key = ".fibre_volume_fraction";
        const std::string begin = "fabric." + name;
        if (path != begin + key) {
            continue;
        }
        std::vector<std::string> own;
        for (const Layer& layer : start.layers) { // design_board named them so, twice
            if (layer.kind == LayerKind::fabric && layer.fabric == name) {
                own.push_back(begin);
                own.back().append(" of ").append(layer.name).append(key);
            }
        }
        return own;
    }
    return {path};
}

} // namespace

Board board_at(const Board& start, const std::vector<std::string>& paths,
               const Eigen::VectorXd& values) {
    DesignBoard design = design_board(start);
    for (std::size_t i = 0; i < paths.size(); ++i) {
        const double value = values[static_cast<Index>(i)];
        for (DesignValue& one : design.values) {
            if (one.path != paths[i]) {
                continue;
            }
            for (const Follower& follower : one.followers) {
                *follower.place = is_scale(one.path) ? follower.slope * value : value;
            }
        }
    }
    for (auto& [name, material] : design.board->materials) {
        if (material.isotropic) { // its shear moduli follow from the two that are design values
            material.G12 = material.G13 = material.G23 = material.E1 / (2 * (1 + material.nu12));
        }
    }
    return *design.board;
}

Eigen::MatrixXd free_slopes(const Board& start, const std::vector<std::string>& paths,
                            const Eigen::VectorXd& values, const BoardNumbers& numbers) {
    const DesignBoard design = design_board(board_at(start, paths, values));
    Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(static_cast<Index>(numbers.numbers.size()),
                                                   static_cast<Index>(paths.size()));
    for (std::size_t i = 0; i < paths.size(); ++i) {
        const auto column = static_cast<Index>(i);
        const double per = is_scale(paths[i]) ? 1 / values[column] : 1; // scales start at 1 anew
        for (const std::string& path : paths_of_answer(start, paths[i])) {
            const auto found =
                std::find_if(design.values.begin(), design.values.end(),
                             [&](const DesignValue& value) { return value.path == path; });
            if (found == design.values.end()) {
                continue;
            }
            const auto from = static_cast<Index>(found - design.values.begin());
            for (Index k = 0; k < slopes.rows(); ++k) {
                slopes(k, column) += per * numbers.numbers[static_cast<std::size_t>(k)].slope[from];
            }
        }
    }
    return slopes;
}

} // namespace vrid
