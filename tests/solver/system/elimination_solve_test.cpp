#include <stdexcept>

#include <catch2/catch.hpp>

#include "mesh/mesher.hpp"
#include "solver/system/eigenvalues.hpp"
#include "solver/system/element_dofs.hpp"
#include "solver/system/elimination.hpp"
#include "solver/system/elimination_order.hpp"
#include "tests/plate_problem.hpp"

using namespace vrid;

TEST_CASE("what a thread of a block solve throws comes out and does not end the process") {
    const PlateModel model = make_model(mesh_patch({{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, 3, 3, 0), 2,
                                        tests::isotropic_section(1e9, 0.3, 0.01));
    const EliminationTree tree = build_tree(element_dofs(model.numbering));
    const std::vector<char> free(static_cast<std::size_t>(model.unknowns()), 0);
    Factor factor = factorise(
        tree, [&](int quad, Eigen::MatrixXd& K) { quad_stiffness(model, quad, K); },
        determinate_supports(model, free, tree));
    const Eigen::MatrixXd rhs = Eigen::MatrixXd::Ones(model.unknowns(), 6);
    CHECK(solve(factor, rhs, 3).allFinite());
    EliminationOrder impossible = *factor.order;
    impossible.largest = -1; // as if there were no memory for a front's columns
    factor.order = std::make_shared<const EliminationOrder>(impossible);
    CHECK_THROWS_AS(solve(factor, rhs, 3), std::exception);
}
