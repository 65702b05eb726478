#include "solver/prepared.hpp"

#include <algorithm>
#include <stdexcept>
#include <string>

#include "mesh/mesh_lines.hpp"
#include "solver/cases/degree_run.hpp"

namespace vrid {

SharedPrepared prepared_on(const Board& board, Mesh mesh, int degree, double max_size,
                           std::vector<double> stations,
                           const std::function<EliminationTree(const Numbering&)>& order) {
    auto prepared = std::make_shared<Prepared>();
    prepared->mesh = std::move(mesh);
    prepared->degree = degree;
    prepared->max_size = max_size;
    prepared->stations = std::move(stations);
    prepared->lines = mesh_lines(board);
    for (const std::size_t i : {0, 1}) {
        const Numbering numbering =
            number_nodes(prepared->mesh, i == 0 ? std::max(1, degree - 1) : degree);
        prepared->trees[i] =
            order ? order(numbering) : elimination_order(numbering, prepared->stations);
    }
    prepared->unknowns = unknowns_per_node * prepared->trees[1].dofs.nodes;
    return prepared;
}

void check_prepared(const Prepared& prepared, const Board& board, const Settings& settings,
                    const std::vector<double>& stations) {
    const auto refuse = [](const std::string& what) {
        throw std::logic_error("the mesh was prepared for " + what);
    };
    if (settings.degree > 0 && settings.degree != prepared.degree) {
        refuse("degree " + std::to_string(prepared.degree) + ", not " +
               std::to_string(settings.degree));
    }
    if (settings.max_size > 0 && settings.max_size != prepared.max_size) {
        refuse("sides up to " + std::to_string(prepared.max_size) + " m, not " +
               std::to_string(settings.max_size));
    }
    if (!std::includes(prepared.stations.begin(), prepared.stations.end(), stations.begin(),
                       stations.end())) {
        refuse("cases with other lines");
    }
    if (mesh_lines(board) != prepared.lines) {
        refuse("a board with other lines");
    }
}

} // namespace vrid
