#include <algorithm>

#include "io/write/csv_cell.hpp"
#include "io/write/drawing.hpp"
#include "io/write/edge_report.hpp"
#include "io/write/field_files.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/vtu.hpp"
#include "mesh/board/surface.hpp"
#include "solver/response/fields.hpp"

namespace vrid {
namespace {

/// The edging angle that is left at every point [rad].
Eigen::VectorXd local_angle(const EdgeConditionResult& one) {
    return one.condition.tilt - one.curve.loss.array();
}

std::string condition_cells(const EdgeCondition& condition) {
    return "," + side_name(condition) + "," + csv_cell(condition.tilt, Unit::angle) + "," +
           csv_cell(condition.force) + "," + csv_cell(bench_hardness(condition)) + "," +
           csv_cell(condition.share) + "\n";
}

/// The board as the snow holds it, rest shape included, in the board's axes.
std::string board_vtu(const EdgeHold& hold, const EdgeConditionResult& one) {
    StudyResult study; // what sampling needs of one
    study.mesh = hold.result.mesh;
    study.numbering = hold.result.numbering;
    study.rest = hold.result.rest;
    CaseResult motion;
    motion.motion = one.motion;
    const MotionSample sample =
        sample_motion(hold.board, study, motion, hold.result.numbering.degree + 1);
    QuadGrid grid;
    grid.n = sample.n;
    grid.notes = {{"board", {hold.board.name}}};
    if (hold.result.bent) { // strains of small motion would not be its
        grid.points =
            rest_places(hold.result.rest.get(), sample.position) + sample.motion.topRows(3);
        grid.fields = {{"displacement [m]", {"u", "v", "w"}, sample.motion.topRows(3)}};
        return vtu_text(grid, false);
    }
    grid.points = sample.motion.topRows(3);
    grid.points.topRows(2) += sample.position;
    if (hold.board.rest_shape) {
        const RestShape rest = surface_of(*hold.board.rest_shape);
        for (Eigen::Index k = 0; k < grid.points.cols(); ++k) {
            grid.points(2, k) += rest.z(sample.position(0, k));
        }
    }
    grid.fields = {{"displacement [m]", {"u", "v", "w"}, sample.motion.topRows(3)},
                   {"rotation [rad]", {"bx", "by"}, sample.motion.bottomRows(2)},
                   {"curvature [1/m]", {"k_x", "k_y", "k_xy"}, sample.strain.middleRows(3, 3)},
                   {"moment [N m/m]", {"M_x", "M_y", "M_xy"}, sample.resultant.middleRows(3, 3)}};
    return vtu_text(grid, false);
}

std::string edge_vtp(const EdgeConditionResult& one) {
    const EdgeCurve& curve = one.curve;
    Eigen::Matrix3Xd points(3, curve.x.size());
    points << curve.along.transpose(), (curve.y + curve.v).transpose(),
        (curve.z0 + curve.w).transpose();
    return vtp_text(points, {{"line force q [N/m]", {}, curve.q.transpose()},
                             {"depth [m]", {}, (-curve.H).cwiseMax(0.0).transpose()},
                             {"local edging angle [rad]", {}, local_angle(one).transpose()}});
}

} // namespace

std::string edge_csv(const EdgeResult& result) {
    std::string all = "condition,x_mm,y_mm,q_Npmm,depth_mm,angle_deg,w_mm,side,edging_deg,force_N,"
                      "hardness,share\n";
    for (std::size_t c = 0; c < result.conditions.size(); ++c) {
        const EdgeConditionResult& one = result.conditions[c];
        const EdgeCurve& curve = one.curve;
        const std::string ending = condition_cells(one.condition);
        if (curve.x.size() == 0) {
            continue; // no equilibrium
        }
        const Eigen::VectorXd angle = local_angle(one);
        for (Eigen::Index i = 0; i < curve.x.size(); ++i) {
            all += csv_cell(static_cast<double>(c + 1)) + "," + csv_cell(curve.x(i), Unit::length) +
                   "," + csv_cell(curve.y(i), Unit::length) + "," +
                   csv_cell(curve.q(i), Unit::line_force) + "," +
                   csv_cell(std::max(-curve.H(i), 0.0), Unit::length) + "," +
                   csv_cell(angle(i), Unit::angle) + "," + csv_cell(curve.w(i), Unit::length) +
                   ending;
        }
    }
    return all;
}

void write_edge(const EdgeHold& hold, const EdgeHold* other, const std::string& folder,
                const std::function<void()>& between) {
    StagedFiles files(folder);
    files.add("edge.csv", edge_csv(hold.result));
    if (other != nullptr) {
        files.add("edge-compared.csv", edge_csv(other->result));
        files.add("drawing-compared.json", drawing_json(other->board));
    }
    for (std::size_t c = 0; c < hold.result.conditions.size(); ++c) {
        between();
        const EdgeConditionResult& one = hold.result.conditions[c];
        if (one.motion.size() > 0) {
            const std::string name = "edge-" + std::to_string(c + 1);
            files.add(name + ".vtu", board_vtu(hold, one));
            files.add(name + ".vtp", edge_vtp(one));
        }
    }
    files.add("drawing.json", drawing_json(hold.board));
    files.add("edge.json", edge_json(hold, other));
    files.publish_as("edge");
}

} // namespace vrid
