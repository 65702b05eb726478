#include "tests/laminate_strain.hpp"

#include "solver/system/dense_solve.hpp"

namespace vrid::tests {

LaminateStrain laminate_strain(const Section<double>& section, const Eigen::Vector3d& N,
                               const Eigen::Vector3d& M) {
    Eigen::Matrix<double, 6, 6> ABD;
    ABD << section.A, section.B, section.B, section.D;
    Eigen::Matrix<double, 6, 1> load;
    load << N, M;
    const Eigen::Matrix<double, 6, 1> strain = solve_square(ABD, load);
    return {strain.head<3>(), strain.tail<3>()};
}

} // namespace vrid::tests
