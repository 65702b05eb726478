#include "solver/system/mass_matrix.hpp"

#include <vector>

namespace vrid {

using Eigen::Index;
using Eigen::MatrixXd;

namespace {

using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

} // namespace

MassMatrix mass_matrix(const PlateModel& model) {
    std::vector<Eigen::Triplet<double>> I0;
    std::vector<Eigen::Triplet<double>> I1;
    std::vector<Eigen::Triplet<double>> I2;
    for (std::size_t quad = 0; quad < model.mesh.quads.size(); ++quad) {
        const auto moment = quad_moments(model, static_cast<int>(quad));
        const std::vector<int>& nodes = model.numbering.quad_nodes[quad];
        for (std::size_t j = 0; j < nodes.size(); ++j) {
            for (std::size_t i = 0; i < nodes.size(); ++i) {
                const auto row = static_cast<Index>(i);
                const auto col = static_cast<Index>(j);
                I0.emplace_back(nodes[i], nodes[j], moment[0](row, col));
                I1.emplace_back(nodes[i], nodes[j], moment[1](row, col));
                I2.emplace_back(nodes[i], nodes[j], moment[2](row, col));
            }
        }
    }
    const int n = model.numbering.nodes;
    MassMatrix mass{MassMatrix::Nodes(n, n), MassMatrix::Nodes(n, n), MassMatrix::Nodes(n, n)};
    mass.I0.setFromTriplets(I0.begin(), I0.end());
    mass.I1.setFromTriplets(I1.begin(), I1.end());
    mass.I2.setFromTriplets(I2.begin(), I2.end());
    return mass;
}

MatrixXd times(const MassMatrix& mass, const MatrixXd& x) {
    // By rows all columns of an unknown lie together, and one pass over the three matrices serves
    // all columns: memory is what takes the time.
    const RowMajor motion = x;
    RowMajor force = RowMajor::Zero(x.rows(), x.cols());
    const Index columns = x.cols();
    const int* first = mass.I0.outerIndexPtr();
    for (Index i = 0; i < mass.I0.rows(); ++i) {
        double* f = force.data() + unknowns_per_node * i * columns;
        for (int k = first[i]; k < first[i + 1]; ++k) {
            const double* m =
                motion.data() + unknowns_per_node * columns * mass.I0.innerIndexPtr()[k];
            const double I0 = mass.I0.valuePtr()[k];
            const double I1 = mass.I1.valuePtr()[k];
            const double I2 = mass.I2.valuePtr()[k];
            const Index two = 2 * columns; // u v, or bx by
            const Index three = 3 * columns;
            for (Index c = 0; c < two; ++c) {
                f[c] += I0 * m[c] + I1 * m[three + c];
                f[three + c] += I1 * m[c] + I2 * m[three + c];
            }
            for (Index c = two; c < three; ++c) {
                f[c] += I0 * m[c];
            }
        }
    }
    return force;
}

} // namespace vrid
