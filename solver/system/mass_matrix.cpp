#include "solver/system/mass_matrix.hpp"

#include <array>
#include <vector>

namespace vrid {

namespace {

using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

} // namespace

MassMatrix mass_matrix(const PlateModel& model) {
    std::array<std::vector<Eigen::Triplet<double>>, 5> entries;
    const std::size_t kinds = model.rest ? 5 : 3;
    for (std::size_t quad = 0; quad < model.mesh.quads.size(); ++quad) {
        const auto moment = quad_moments(model, static_cast<int>(quad));
        const std::vector<int>& nodes = model.numbering.quad_nodes[quad];
        for (std::size_t j = 0; j < nodes.size(); ++j) {
            for (std::size_t i = 0; i < nodes.size(); ++i) {
                const auto row = static_cast<Index>(i);
                const auto col = static_cast<Index>(j);
                for (std::size_t kind = 0; kind < kinds; ++kind) {
                    entries[kind].emplace_back(nodes[i], nodes[j], moment[kind](row, col));
                }
            }
        }
    }
    MassMatrix mass;
    const std::array<MassMatrix::Nodes*, 5> parts{&mass.I0, &mass.I1, &mass.I2, &mass.I1C,
                                                  &mass.I1S};
    for (std::size_t kind = 0; kind < kinds; ++kind) {
        parts[kind]->resize(model.numbering.nodes, model.numbering.nodes);
        parts[kind]->setFromTriplets(entries[kind].begin(), entries[kind].end());
    }
    return mass;
}

MatrixXd times(const MassMatrix& mass, const MatrixXd& x) {
    // By rows all columns of an unknown lie together, and one pass over the three matrices serves
    // all columns: memory is what takes the time.
    const RowMajor motion = x;
    RowMajor force = RowMajor::Zero(x.rows(), x.cols());
    const Index columns = x.cols();
    const bool tilted = mass.I1C.rows() > 0;
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
            if (tilted) {
                const double I1C = mass.I1C.valuePtr()[k];
                const double I1S = mass.I1S.valuePtr()[k];
                for (Index c = 0; c < columns; ++c) {
                    f[c] += I0 * m[c] + I1C * m[three + c];
                    f[columns + c] += I0 * m[columns + c] + I1 * m[three + columns + c];
                    f[two + c] += I0 * m[two + c] + I1S * m[three + c];
                    f[three + c] += I1C * m[c] + I1S * m[two + c] + I2 * m[three + c];
                    f[three + columns + c] += I1 * m[columns + c] + I2 * m[three + columns + c];
                }
                continue;
            }
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
