#include "solver/response/cross_section.hpp"

#include <array>
#include <string>

#include "mesh/board/board_stations.hpp"
#include "mesh/board/error.hpp"
#include "solver/response/line_twist.hpp"
#include "solver/response/station.hpp"
#include "solver/system/dense_solve.hpp"

namespace vrid {

namespace {

constexpr std::array<int, 2> kept_strains{0, 3};       // e_x, k_x
constexpr std::array<int, 4> free_strains{1, 2, 4, 5}; // N_y = N_xy = M_y = M_xy = 0

// What the free strains do for unit e_x and k_x, 4 x 2.
Eigen::Matrix<double, 4, 2> follow(const Section<double>& s) {
    const Eigen::Matrix<double, 6, 6> C = stiffness8(s).topLeftCorner<6, 6>();
    const Eigen::Matrix4d inner = C(free_strains, free_strains);
    const Eigen::Matrix<double, 4, 2> side = C(free_strains, kept_strains);
    return -solve_symmetric(inner, side);
}

// [A* B*; B* D*]: what e_x and k_x meet.
Eigen::Matrix2d beam_stiffness(const Section<double>& s) {
    const Eigen::Matrix<double, 6, 6> C = stiffness8(s).topLeftCorner<6, 6>();
    const Eigen::Matrix<double, 2, 4> side = C(kept_strains, free_strains);
    return C(kept_strains, kept_strains) + side * follow(s);
}

Eigen::Matrix2d beam_stiffness(const std::vector<PartSection>& parts) {
    Eigen::Matrix2d sum = Eigen::Matrix2d::Zero();
    for (const PartSection& part : parts) {
        sum += (part.y_to - part.y_from) * beam_stiffness(part.section);
    }
    return sum;
}

double bending_stiffness(const std::vector<PartSection>& parts) {
    const Eigen::Matrix2d sum = beam_stiffness(parts);
    return sum(1, 1) - sum(0, 1) * sum(0, 1) / sum(0, 0);
}

// EI is the least energy, times two, at unit curvature: the weights are those of its strains.
void add_bending_weights(const std::vector<PartSection>& parts, SectionWeights& weights) {
    const Eigen::Matrix2d sum = beam_stiffness(parts);
    const Eigen::Vector2d kept(-sum(0, 1) / sum(0, 0), 1);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        Eigen::Matrix<double, 8, 1> strain = Eigen::Matrix<double, 8, 1>::Zero();
        strain(kept_strains) = kept;
        strain(free_strains) = follow(parts[i].section) * kept;
        weights.weight.col(0).segment<section_terms>(section_terms * static_cast<Index>(i)) +=
            (parts[i].y_to - parts[i].y_from) * energy_weights(strain, strain);
    }
}

// Parts of one layup at station x; where the core's thickness changes across, of one thickness
// each, so narrow that the error goes with the square of the width.
std::vector<StationPart> even_parts(const Layup<double>& layup, double x) {
    constexpr double narrow = 1e-3; // [m]
    return thickness_slices(layup, x, station_parts(layup, beside(layup.board->planform, x)),
                            narrow);
}

// The parts at station x with their sections. \throws InputError without any
std::vector<PartSection> part_sections(const Layup<double>& layup,
                                       const std::vector<StationPart>& found, double x) {
    std::vector<PartSection> parts;
    for (const StationPart& part : found) {
        const double core =
            core_thickness(layup, Eigen::Vector2d(x, (part.y_from + part.y_to) / 2));
        parts.push_back({part.y_from, part.y_to, section(stack_laminae(layup, part.key, core))});
    }
    if (parts.empty()) {
        throw InputError(layup.board->file,
                         "the board has no width at x = " + std::to_string(x) + " m");
    }
    return parts;
}

} // namespace

CrossSection cross_section(const Board& board, double x) {
    const Layup<double> layup = make_layup<double>(board);
    return cross_section(layup, x);
}

CrossSection cross_section(const Layup<double>& layup, double x) {
    CrossSection result;
    result.x = x;
    result.core_thickness = core_thickness(layup, Eigen::Vector2d(x, 0));
    const std::vector<StationPart> found = even_parts(layup, x);
    const std::vector<PartSection> parts = part_sections(layup, found, x);
    result.thickness =
        section(stack_laminae(layup, found[part_on_axis(found)].key, result.core_thickness))
            .thickness;
    for (const PartSection& part : parts) {
        const double width = part.y_to - part.y_from;
        result.width += width;
        result.mass_per_length += width * part.section.I0;
    }
    result.EI = bending_stiffness(parts);
    result.GJ = twist_stiffness(parts);
    return result;
}

SectionWeights cross_section_weights(const Layup<double>& layup, double x) {
    const std::vector<StationPart> found = even_parts(layup, x);
    const std::vector<PartSection> parts = part_sections(layup, found, x);
    SectionWeights weights;
    for (const StationPart& part : found) {
        weights.places.push_back(
            {static_cast<int>(weights.stacks.size()), x, 0, (part.y_from + part.y_to) / 2});
        weights.stacks.push_back(part.key);
    }
    weights.weight = MatrixXd::Zero(section_terms * static_cast<Index>(parts.size()), 2);
    add_bending_weights(parts, weights);
    weights.weight.col(1) = twist_weights(parts);
    return weights;
}

} // namespace vrid
