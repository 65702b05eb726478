#include "io/write/stations_csv.hpp"

#include <algorithm>
#include <cmath>

#include "io/write/csv_cell.hpp"
#include "mesh/board/same_place.hpp"
#include "solver/lines_along.hpp"
#include "solver/response/bare_place.hpp"
#include "solver/response/station.hpp"

namespace vrid {
namespace {

constexpr double same_station = 1e-9; // [m]
/// Index of the mesh line at station x, or the number of lines.
std::size_t line_at(const Mesh& mesh, double x) {
    std::size_t k = 0;
    while (k < mesh.lines.size() && std::abs(mesh.lines[k].x - x) > same_station) {
        ++k;
    }
    return k;
}

/// `between` stands before EI and GJ: other cells.
std::string section_cells(const CrossSection& section, const std::string& between = "") {
    std::string all;
    for (const double length :
         {section.x, section.width, section.core_thickness, section.thickness}) {
        all += csv_cell(length, Unit::length) + ",";
    }
    return all + between + csv_cell(section.EI, Unit::section_stiffness) + "," +
           csv_cell(section.GJ, Unit::section_stiffness);
}

bool has_lines(const CaseResult& result) {
    return !result.deflection.empty() || !result.twist.empty();
}

std::string case_columns(const StudyResult& study) {
    std::string all;
    for (const CaseResult& result : study.cases) {
        if (has_lines(result)) {
            all += "," + result.name + "_deflection_mm," + result.name + "_twist_deg";
        }
    }
    return all;
}

std::string case_cells(const CaseResult& result, const std::vector<double>& deflection,
                       const std::vector<double>& twist, std::size_t line) {
    const double factor = written_load(result).factor;
    const auto one = [&](const std::vector<double>& values, Unit unit) {
        return "," + (line < values.size() ? csv_cell(factor * values[line], unit) : "");
    };
    return one(deflection, Unit::length) + one(twist, Unit::angle);
}

} // namespace

std::string stations_csv(const SolvedBoard& solved) {
    std::string all =
        "x_mm,width_mm,core_thickness_mm,thickness_mm,mass_per_length_kgpm,EI_Nm2,GJ_Nm2";
    const StudyResult& study = solved.study;
    all += case_columns(study) + "\n";
    for (const CrossSection& section : study.stations) {
        all +=
            section_cells(section, csv_cell(section.mass_per_length, Unit::mass_per_length) + ",");
        const std::size_t line = line_at(study.mesh, section.x);
        for (const CaseResult& result : study.cases) {
            if (has_lines(result)) {
                all += case_cells(result, result.deflection, result.twist, line);
            }
        }
        all += "\n";
    }
    return all;
}

std::string lines_csv(const SolvedBoard& solved) {
    const StudyResult& study = solved.study;
    const LinesAlong lines = lines_along(solved.board.planform, study);
    std::string all = "x_mm" + case_columns(study) + "\n";
    for (std::size_t k = 0; k < lines.x.size(); ++k) {
        all += csv_cell(lines.x[k], Unit::length);
        for (std::size_t i = 0; i < study.cases.size(); ++i) {
            if (has_lines(study.cases[i])) {
                all += case_cells(study.cases[i], lines.deflection[i], lines.twist[i], k);
            }
        }
        all += "\n";
    }
    return all;
}

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
        all += section_cells(section) + "\n";
    }
    return all;
}

} // namespace vrid
