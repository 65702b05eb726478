#pragma once

#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "io/design/design_values.hpp"
#include "io/materials/design_paths.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "io/write/design_path.hpp"
#include "solver/design/board_numbers.hpp"
#include "tests/shipped.hpp"

namespace vrid::tests {

inline const MaterialLibrary& library() {
    return shipped_library();
}

inline Board example(const std::string& name) {
    return shipped_board(name);
}

/// The board with every design value moved at random: lengths, weights and constants by up to 15 %,
/// angles by up to 20 degrees, core stations by 0.5 % (so that none comes level with the next,
/// where the smooth profile has a kink). The same for the same seed.
inline Board shaken(const Board& board, unsigned seed) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> even(-1, 1);
    std::vector<DesignId> ids;
    std::vector<double> values;
    for (const DesignValue& value : design_board(board).values) {
        const bool angle = value.kind().property == DesignProperty::layer_angle;
        const bool station = value.kind().property == DesignProperty::core_thickness;
        const bool scale = value.kind().form == DesignForm::scale;
        const bool poisson =
            range_of(value.kind()) == "material.nu"; // below 1/2, where some are near
        const double move = poisson ? -std::abs(even(random)) : even(random);
        if (!scale && !value.kind().moves_lines) { // stations and plies move themselves
            ids.push_back(value.id);
            values.push_back(angle ? value.value + 0.35 * move
                                   : value.value * (1 + (station ? 0.005 : 0.15) * move));
        }
    }
    return with_values(
        board,
        {ids, Eigen::Map<Eigen::VectorXd>(values.data(), static_cast<Eigen::Index>(values.size()))},
        library());
}

/// The ids of these paths.
inline std::vector<DesignId> ids_of(const Board& board, const std::vector<std::string>& paths) {
    std::vector<DesignId> ids;
    for (const std::string& path : paths) {
        ids.push_back(find_design(board, path)->id);
    }
    return ids;
}

inline NumberId request(NumberId::Kind kind, double station = 0) {
    return {kind, {}, 0, station};
}

inline NumberId edge_request(const std::string& number) {
    NumberId one = request(NumberId::Kind::edge);
    one.edge_number = number;
    return one;
}

} // namespace vrid::tests
