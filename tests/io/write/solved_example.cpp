#include "tests/io/write/solved_example.hpp"

#include <array>

#include "mesh/mesher.hpp"
#include "solver/system/numbering.hpp"

namespace vrid::tests {
namespace {

Board steel_plate() {
    Board board;
    board.name = "plate";
    board.file = "plate.toml";
    board.hash = "0123abcd";
    board.planform = rectangle_planform(1.0, 0.2);
    Layer sheet;
    sheet.name = "sheet";
    sheet.material = "steel";
    sheet.thickness = 2e-3;
    board.layers = {sheet};
    Material steel;
    steel.name = "steel";
    steel.isotropic = true;
    steel.E1 = steel.E2 = 200e9;
    steel.nu12 = 0.25;
    steel.G12 = steel.G13 = steel.G23 = 80e9;
    steel.density = 7850;
    board.materials["steel"] = steel;
    return board;
}

CaseResult flex_case(int nodes) {
    CaseResult flex;
    flex.name = "centre-flex";
    flex.numbers = {{"stiffness", {7512.3456789123, 4, Unit::bending_stiffness}}};
    flex.motion = Eigen::VectorXd::Zero(5 * nodes);
    flex.deflection = {0, 1.25e-4, 0};
    flex.twist = {0, 0, 0};
    return flex;
}

CaseResult twist_case(const Numbering& numbering) {
    CaseResult twist;
    twist.name = "full-twist";
    twist.numbers = {{"stiffness", {80.0, 0.25, Unit::twist_stiffness}}};
    twist.motion = Eigen::VectorXd::Zero(5 * numbering.nodes);
    for (int node = 0; node < numbering.nodes; ++node) {
        const double x = numbering.position(0, node);
        const double y = numbering.position(1, node);
        twist.motion.segment<5>(5 * node) << 0, 0, x * y, -y, -x; // no shear: b = -grad w
    }
    twist.deflection = {0, 0, 0};
    twist.twist = {-0.5, 0, 0.5};
    return twist;
}

} // namespace

SolvedBoard solved_example() {
    SolvedBoard solved;
    solved.board = steel_plate();
    solved.outline = outline_figures(solved.board);
    solved.mass = board_mass(solved.board);
    StudyResult& study = solved.study;
    const std::array<Eigen::Vector2d, 4> corners{
        {{-0.5, -0.1}, {0.5, -0.1}, {0.5, 0.1}, {-0.5, 0.1}}};
    study.mesh = mesh_patch(corners, 2, 1);
    study.mesh.lines = {{-0.5, {}}, {0, {}}, {0.5, {}}};
    study.numbering = number_nodes(study.mesh, 3);
    study.cases = {flex_case(study.numbering.nodes), twist_case(study.numbering)};
    CaseResult skipped;
    skipped.name = "stance-twist";
    skipped.skipped = "the board file has no [stance]";
    study.cases.push_back(skipped);
    for (const StationLine& line : study.mesh.lines) {
        study.stations.push_back({line.x, 0.2, 0, 2e-3, 3.14, 26.7, 42.5});
    }
    study.unknowns = 5 * study.numbering.nodes;
    study.residual = 1.23456e-12;
    study.seconds = {{"mesh", 0.1}, {"solve", 0.2}};
    study.warnings = {"a warning"};
    return solved;
}

} // namespace vrid::tests
