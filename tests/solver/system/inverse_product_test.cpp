#include "solver/system/inverse_product.hpp"

#include <catch2/catch.hpp>

#include "solver/system/element_dofs.hpp"
#include "tests/plate_problem.hpp"

using namespace vrid;
using namespace vrid::tests;
using Eigen::MatrixXd;

TEST_CASE("the inverse between loads is what solutions for each of them give, on any supports") {
    const PlateModel model =
        make_model(mesh_patch({{{0, 0}, {1.2, 0}, {1.3, 0.4}, {-0.1, 0.3}}}, 9, 3), 3,
                   moved_to(isotropic_section(7e9, 0.3, 0.01), 0.002));
    const EliminationTree tree = build_tree(element_dofs(model.numbering));
    const ElementStiffness stiffness = [&](int quad, MatrixXd& K) {
        quad_stiffness(model, quad, K);
    };
    // a load on every third node of one side, some with a second place, one that meets nothing free
    std::vector<int> side = outline_nodes(model, [](double, double y) { return y < 1e-9; });
    Eigen::SparseMatrix<double> loads(model.unknowns(), 8);
    for (int c = 0; c < 7; ++c) {
        const int node = side[3 * static_cast<std::size_t>(c) + 1];
        loads.insert(5 * node + c % 5, c) = 1 + c;
        if (c % 2 == 0) {
            loads.insert(5 * (model.numbering.nodes - 1 - node) + 2, c) = -0.3;
        }
    }
    std::vector<char> end(static_cast<std::size_t>(model.unknowns()), 0);
    for (const int node : outline_nodes(model, [](double x, double) { return x > 1.2 + 1e-9; })) {
        std::fill_n(end.begin() + 5 * static_cast<std::ptrdiff_t>(node), 5, char(1));
    }
    loads.insert(std::find(end.begin(), end.end(), 1) - end.begin(), 7) = 5;
    std::vector<char> scattered(end.size(), 0);
    for (std::size_t k = 2; k < scattered.size(); k += 97) {
        scattered[k] = 1;
    }
    scattered[0] = scattered[1] = 1;
    for (std::size_t k = scattered.size() - 10; k < scattered.size(); ++k) {
        scattered[k] = 1;
    }
    for (const auto& fixed : {end, scattered}) {
        const Factor factor = factorise(tree, stiffness, fixed);
        const MatrixXd expected = loads.transpose() * solve(factor, MatrixXd(loads));
        for (const Eigen::Index count : {8, 5, 1}) {
            CAPTURE(count);
            const MatrixXd found = inverse_product(factor, loads, count);
            REQUIRE(found.rows() == 8);
            REQUIRE(found.cols() == count);
            CHECK((found - expected.leftCols(count)).norm() < 1e-9 * expected.norm());
        }
    }
}
