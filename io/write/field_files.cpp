#include "io/write/field_files.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "io/write/number.hpp"
#include "mesh/board/surface.hpp"
#include "solver/cases/cases.hpp"
#include "solver/response/fields.hpp"

namespace vrid {

namespace {

using Names = std::vector<std::string>;

/// Points per side that carry fields of the study's degree exactly.
int points_per_side(const SolvedBoard& solved) {
    return solved.study.numbering.degree + 1;
}

Eigen::Matrix3Xd on_plane(const Eigen::Matrix2Xd& position) {
    Eigen::Matrix3Xd points = Eigen::Matrix3Xd::Zero(3, position.cols());
    points.topRows(2) = position;
    return points;
}

void note_case(QuadGrid& grid, const SolvedBoard& solved, const CaseResult& result) {
    const CaseInfo& info = bench_of(result.name).info;
    grid.notes = {{"board", {solved.board.name}},
                  {"case", {result.name}},
                  {"load", {written_load(result).text}},
                  {"held", {info.held}},
                  {"loaded", {info.loaded}}};
}

// Shapes of all modes, each with 1 m where it moves most; of a study that kept no models the first
// alone is known, as the case's motion.
void add_mode_shapes(QuadGrid& grid, const SolvedBoard& solved, const CaseResult& result) {
    const auto& kept = solved.study.solved[1];
    const auto& cases = solved.study.cases;
    const auto which = static_cast<std::size_t>(
        std::ranges::find(cases, result.name, &CaseResult::name) - cases.begin());
    if (!kept || which >= kept->motion.size()) {
        return;
    }
    const Eigen::MatrixXd& shapes = kept->motion[which];
    CaseResult one;
    Names frequencies;
    for (std::size_t k = 0; k < result.numbers.size(); ++k) {
        one.motion = shapes.col(static_cast<Eigen::Index>(k));
        double largest = 0;
        for (Eigen::Index i = 0; i < one.motion.size(); ++i) {
            const bool moves = i % unknowns_per_node <= comp_w; // u, v or w: some modes stay flat
            largest =
                moves && std::abs(one.motion(i)) > std::abs(largest) ? one.motion(i) : largest;
        }
        one.motion /= largest != 0 ? largest : 1;
        const MotionSample sample =
            sample_motion(solved.board, solved.study, one, points_per_side(solved));
        const std::string& name = result.numbers[k].name; // "mode 1"
        grid.fields.push_back(
            {name + " displacement [m]", {"u", "v", "w"}, sample.motion.topRows(3)});
        const BenchQuantity frequency = to_bench(result.numbers[k].quantity);
        frequencies.push_back(name + " " + significant(frequency.value, 5) + " " + frequency.unit);
    }
    grid.notes.push_back({"frequencies", frequencies});
}

// The stress of a board out of the press, by ply.
void add_residual_stress(QuadGrid& grid, const SolvedBoard& solved, const CaseResult& result) {
    ResidualFields residual(solved.board, solved.study, points_per_side(solved));
    add_stress_fields(grid, residual.plot(), residual.fields(result));
}

} // namespace

QuadGrid case_grid(const SolvedBoard& solved, const CaseResult& result) {
    const MotionSample sample =
        sample_motion(solved.board, solved.study, result, points_per_side(solved));
    const double f = written_load(result).factor;
    QuadGrid grid;
    grid.n = sample.n;
    grid.points = on_plane(sample.position);
    grid.fields = {
        {"displacement [m]", {"u", "v", "w"}, f * sample.motion.topRows(3)},
        {"rotation [rad]", {"bx", "by"}, f * sample.motion.bottomRows(2)},
        {"twist [rad/m]", {}, -f / 2 * sample.strain.row(5)},
        {"membrane strain [-]", Names{"e_x", "e_y", "e_xy"}, f * sample.strain.topRows(3)},
        {"curvature [1/m]", Names{"k_x", "k_y", "k_xy"}, f * sample.strain.middleRows(3, 3)},
        {"shear strain [-]", Names{"g_yz", "g_xz"}, f * sample.strain.bottomRows(2)},
        {"membrane force [N/m]", Names{"N_x", "N_y", "N_xy"}, f * sample.resultant.topRows(3)},
        {"moment [N m/m]", Names{"M_x", "M_y", "M_xy"}, f * sample.resultant.middleRows(3, 3)},
        {"shear force [N/m]", Names{"Q_yz", "Q_xz"}, f * sample.resultant.bottomRows(2)}};
    note_case(grid, solved, result);
    if (result.cooled) {
        add_residual_stress(grid, solved, result);
    } else if (!result.numbers.empty() && result.numbers.front().quantity.unit == Unit::frequency) {
        add_mode_shapes(grid, solved, result);
    }
    return grid;
}

Eigen::Matrix3Xd rest_places(const RestShape* rest, const Eigen::Matrix2Xd& position) {
    Eigen::Matrix3Xd points = on_plane(position);
    if (rest != nullptr) {
        std::map<double, double> places; // of few stations, each met many times
        for (Eigen::Index k = 0; k < points.cols(); ++k) {
            const double x = position(0, k);
            auto [place, fresh] = places.try_emplace(x, 0);
            if (fresh) {
                place->second = rest->place(x);
            }
            points(0, k) = place->second;
            points(2, k) = rest->z(x);
        }
    }
    return points;
}

// Points at their true positions: the floor's X, y and the height.
QuadGrid bent_grid(const SolvedBoard& solved, const BentCase& bent) {
    CaseResult motion;
    motion.motion = bent.motion;
    const MotionSample sample =
        sample_motion(solved.board, solved.study, motion, points_per_side(solved));
    QuadGrid grid;
    grid.n = sample.n;
    grid.points = rest_places(solved.study.rest.get(), sample.position);
    grid.points += sample.motion.topRows(3);
    grid.fields = {{"displacement [m]", {"u", "v", "w"}, sample.motion.topRows(3)}};
    grid.notes = {{"board", {solved.board.name}}, {"case", {bent_name(bent)}}};
    return grid;
}

QuadGrid board_grid(const SolvedBoard& solved) {
    const Board& board = solved.board;
    const SectionSample sample = sample_sections(board, solved.study.mesh, points_per_side(solved));
    QuadGrid grid;
    grid.n = sample.n;
    grid.points = on_plane(sample.position);
    if (board.rest_shape) {
        const RestShape rest = surface_of(*board.rest_shape);
        for (Eigen::Index k = 0; k < grid.points.cols(); ++k) {
            grid.points(2, k) = rest.z(grid.points(0, k));
        }
    }
    const Names abd{"11", "12", "16", "22", "26", "66"};
    grid.fields = {{"thickness [m]", {}, sample.thickness.transpose()},
                   {"core thickness [m]", {}, sample.core_thickness.transpose()},
                   {"mass per area [kg/m2]", {}, sample.mass_per_area.transpose()},
                   {"membrane stiffness A [N/m]", abd, sample.A},
                   {"coupling stiffness B [N]", abd, sample.B},
                   {"bending stiffness D [N m]", abd, sample.D},
                   {"shear stiffness S [N/m]", {"yz,yz", "yz,xz", "xz,xz"}, sample.S}};
    grid.marks = {{"layer set", sample.stack}};
    grid.notes = {{"board", {board.name}}, {"layer sets", sample.stack_text}};
    return grid;
}

} // namespace vrid
