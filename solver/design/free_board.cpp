#include "solver/design/free_board.hpp"

#include <algorithm>
#include <map>

#include "mesh/board/material_keys.hpp"

namespace vrid {

namespace {

using Eigen::Index;

bool is_scale(const DesignValue& value) {
    return value.kind->form == DesignForm::scale;
}

// Under which paths design_board(board_at(start)) has the value of a fabric of the start: one for
// each layer's own fabric.
std::map<std::string, std::vector<std::string>> paths_of_answer(Board start) {
    std::map<std::string, std::vector<std::string>> paths;
    for (const DesignPlace& place : design_places(start)) {
        for (const Layer& layer : start.layers) {
            if (place.fabric != nullptr && layer.kind == LayerKind::fabric &&
                layer.fabric == place.name) { // design_board named them so, twice
                paths[place.path].push_back(place.kind->path(place.name + " of " + layer.name));
            }
        }
    }
    return paths;
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
                *follower.place = is_scale(one) ? follower.slope * value : value;
            }
        }
    }
    for (auto& [name, material] : design.board->materials) {
        complete(material); // what follows was set as what it follows
    }
    return *design.board;
}

Eigen::MatrixXd free_slopes(const Board& start, const std::vector<std::string>& paths,
                            const Eigen::VectorXd& values, const BoardNumbers& numbers) {
    const DesignBoard design = design_board(board_at(start, paths, values));
    Eigen::MatrixXd slopes = Eigen::MatrixXd::Zero(static_cast<Index>(numbers.numbers.size()),
                                                   static_cast<Index>(paths.size()));
    const auto of_fabrics = paths_of_answer(start);
    for (std::size_t i = 0; i < paths.size(); ++i) {
        const auto column = static_cast<Index>(i);
        const auto fabric = of_fabrics.find(paths[i]);
        for (const std::string& path :
             fabric != of_fabrics.end() ? fabric->second : std::vector{paths[i]}) {
            const auto found =
                std::find_if(design.values.begin(), design.values.end(),
                             [&](const DesignValue& value) { return value.path == path; });
            if (found == design.values.end()) {
                continue;
            }
            const double per = is_scale(*found) ? 1 / values[column] : 1; // scales start at 1 anew
            const auto from = static_cast<Index>(found - design.values.begin());
            for (Index k = 0; k < slopes.rows(); ++k) {
                slopes(k, column) += per * numbers.numbers[static_cast<std::size_t>(k)].slope[from];
            }
        }
    }
    return slopes;
}

} // namespace vrid
