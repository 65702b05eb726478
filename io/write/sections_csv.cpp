#include "io/write/sections_csv.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/csv_cell.hpp"
#include "mesh/board/same_place.hpp"
#include "solver/response/bare_place.hpp"
#include "solver/response/station.hpp"

namespace vrid {

std::vector<CrossSection> sections_along(const Board& board, double step) {
    constexpr double most = 2000;
    const auto [tail, nose] = x_extent(board.planform);
    const Layup<double> layup = make_layup<double>(board);
    const double count = std::clamp(std::floor((nose - tail) / step), 1.0, most);
    std::vector<CrossSection> all;
    for (double k = 0.5; k < count; k += 1) {
        const double x = tail + (nose - tail) * k / count;
        if (!station_parts(layup, x).empty()) {
            all.push_back(cross_section(layup, x));
        }
    }
    return all;
}

std::string sections_csv(const Board& board, double step) {
    std::string all = "x_mm,width_mm,core_thickness_mm,thickness_mm,EI_Nm2,GJ_Nm2\n";
    for (const CrossSection& section : sections_along(board, step)) {
        all += csv_cell(section.x, Unit::length) + "," + csv_cell(section.width, Unit::length) +
               "," + csv_cell(section.core_thickness, Unit::length) + "," +
               csv_cell(section.thickness, Unit::length) + "," +
               csv_cell(section.EI, Unit::section_stiffness) + "," +
               csv_cell(section.GJ, Unit::section_stiffness) + "\n";
    }
    return all;
}

} // namespace vrid
