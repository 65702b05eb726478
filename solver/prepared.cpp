#include "solver/prepared.hpp"

#include <algorithm>
#include <stdexcept>
#include <string>

#include "mesh/mesh_lines.hpp"

namespace vrid {

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
