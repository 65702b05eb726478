#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/response/result.hpp"

namespace vrid {

/// Fields of one case at n x n evenly spaced points of every quad. Column e n^2 + j n + i is quad
/// e, xi point i, eta point j (points of neighbours are repeated: fields may jump).
struct MotionSample {
    int n = 0;
    Eigen::Matrix2Xd position;                       ///< 2 x count [m]
    Eigen::Matrix<double, 5, Eigen::Dynamic> motion; ///< u v w bx by [m, rad]
    Eigen::Matrix<double, 8, Eigen::Dynamic>
        strain; ///< e_x e_y e_xy k_x k_y k_xy g_yz g_xz [-, 1/m]
    Eigen::Matrix<double, 8, Eigen::Dynamic>
        resultant; ///< N M Q in the same order; of a cooled board what its free strains leave [N/m,
                   ///< N, N/m]
};

/// The unloaded board at the same points.
struct SectionSample {
    int n = 0;
    Eigen::Matrix2Xd position;                        ///< 2 x count [m]
    Eigen::VectorXd thickness, core_thickness;        ///< [m]
    Eigen::VectorXd mass_per_area;                    ///< [kg/m2]
    Eigen::Matrix<double, 6, Eigen::Dynamic> A, B, D; ///< 11 12 16 22 26 66 [N/m, N, N m]
    Eigen::Matrix<double, 3, Eigen::Dynamic> S;       ///< yz,yz yz,xz xz,xz [N/m]
    std::vector<int> stack;                           ///< per quad: which set of layers, an index
    std::vector<std::string> stack_text;              ///< per index: the layers' names upwards
};

MotionSample sample_motion(const Board& board, const StudyResult& study, const CaseResult& result,
                           int n);
SectionSample sample_sections(const Board& board, const Mesh& mesh, int n);

} // namespace vrid
