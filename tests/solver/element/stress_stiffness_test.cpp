// What stresses add to the tangent of the director shell: along any motion their work on the exact
// second derivative of the strains.
#include "solver/element/stress_stiffness.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/element/shell_line.hpp"
#include "tests/plate_problem.hpp"
#include "tests/rest_shapes.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

TEST_CASE("the stresses' stiffness is their work on the strains' second derivatives, stress by "
          "stress") {
    const int p = GENERATE(1, 2, 3, 4);
    const PlateModel model =
        make_model(mesh_patch({{{0, 0}, {1.1, 0.1}, {1.25, 0.95}, {-0.1, 0.8}}}, 1, 1), p,
                   isotropic_section(1, 0.3, 0.1));
    const ReferenceElement& reference = model.reference;
    const ShellTables tables =
        shell_tables(reference, element_nodes(model, 0), *arc(2.5, -0.2, 1.4));
    const auto some = [&](double rate, double size) {
        VectorXd all(Index(unknowns_per_node) * reference.n);
        for (Index k = 0; k < all.size(); ++k) {
            all(k) = size * std::sin(rate * static_cast<double>(k) + 0.2);
        }
        return all;
    };
    const VectorXd u = some(1.3, 0.03);
    for (Index component = 0; component < 8; ++component) {
        PointStrains stress = PointStrains::Zero(8, reference.m);
        for (Index c = 0; c < stress.cols(); ++c) {
            stress(component, c) = 1 + std::cos(0.9 * static_cast<double>(c));
        }
        MatrixXd K = MatrixXd::Zero(u.size(), u.size());
        add_stress_stiffness(reference, tables, u, stress, K);
        CAPTURE(p, component);
        CHECK((K - K.transpose()).norm() <= 1e-15 * K.norm());
        for (const double rate : {0.7, 2.1, 1.9}) {
            const VectorXd x = some(rate, 1);
            const PointStrains second = strain_line(reference, tables, u, x).second;
            const double work =
                stress.cwiseProduct(second).colwise().sum().dot(tables.weight.transpose());
            CHECK(x.dot(K * x) == Approx(work).epsilon(1e-12));
        }
    }
}
