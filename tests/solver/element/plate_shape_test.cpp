#include "solver/element/plate_shape.hpp"

#include <random>
#include <vector>

#include <catch2/catch.hpp>

#include "mesh/lobatto.hpp"
#include "solver/laminate/section.hpp"

using namespace vrid;

namespace {

// A bent quad of degree p with a laminate that couples everything, and motions at its nodes.
struct Problem {
    ReferenceElement reference;
    Eigen::Matrix2Xd X, V;
    std::vector<PlateStiffness> stiffness;
    Eigen::Matrix3Xd inertia;
    Eigen::VectorXd left, right;

    explicit Problem(int p) : reference(reference_element(p)) {
        std::mt19937 random(7);
        std::uniform_real_distribution<double> any(-1, 1);
        const auto some = [&](Eigen::Index rows, Eigen::Index cols) {
            return Eigen::MatrixXd(
                Eigen::MatrixXd::NullaryExpr(rows, cols, [&] { return any(random); }));
        };
        X.resize(2, reference.n);
        for (int j = 0; j <= p; ++j) {
            for (int i = 0; i <= p; ++i) {
                const double x = reference.nodes(i);
                const double y = reference.nodes(j);
                X.col(j * (p + 1) + i) << 2 * x + 0.3 * y + 0.1 * x * y, y - 0.2 * x + 0.1 * y * y;
            }
        }
        V = some(2, reference.n);
        const PlyConstants<double> ply{40, 9, 0.27, 4, 3.5, 3, 1.9, 0, 0};
        for (int point = 0; point < reference.m; ++point) {
            std::vector<Lamina<double>> stack;
            for (const double angle : {0.2, 1.0, -0.6}) {
                stack.push_back(lamina(ply, angle + 0.1 * any(random), 0.1));
            }
            const Section<double> s = section(stack);
            stiffness.push_back({s.A, s.B, s.D, s.S});
        }
        inertia = some(3, reference.m);
        left = some(5 * reference.n, 1);
        right = some(5 * reference.n, 1);
    }

    [[nodiscard]] double energy(double share) const {
        const ElementTables tables = element_tables(reference, X + share * V);
        Eigen::MatrixXd K;
        element_stiffness(reference, tables, stiffness, K);
        return left.dot(K * right);
    }
    [[nodiscard]] double kinetic(double share) const {
        const ElementTables tables = element_tables(reference, X + share * V);
        const auto moment = element_moments(reference, tables, inertia);
        const Eigen::Map<const Eigen::MatrixXd> a(left.data(), 5, reference.n);
        const Eigen::Map<const Eigen::MatrixXd> b(right.data(), 5, reference.n);
        double sum = 0;
        for (int c = 0; c < 3; ++c) {
            sum += a.row(c).dot(moment[0] * b.row(c).transpose());
        }
        for (int c = 0; c < 2; ++c) {
            sum += a.row(c).dot(moment[1] * b.row(3 + c).transpose());
            sum += a.row(3 + c).dot(moment[1] * b.row(c).transpose());
            sum += a.row(3 + c).dot(moment[2] * b.row(3 + c).transpose());
        }
        return sum;
    }
};

} // namespace

TEST_CASE("the derivative of an element's energy by its nodes is that of differences") {
    const int p = GENERATE(1, 2, 3, 5);
    const Problem problem(p);
    const ElementTables tables = element_tables(problem.reference, problem.X);
    constexpr double h = 1e-5;
    const double slope = element_shape_gradient(problem.reference, tables, problem.X,
                                                problem.stiffness, problem.left, problem.right)
                             .cwiseProduct(problem.V)
                             .sum();
    CAPTURE(p);
    CHECK(slope == Approx((problem.energy(h) - problem.energy(-h)) / (2 * h)).epsilon(1e-6));
    const double mass = element_mass_gradient(problem.reference, tables, problem.inertia,
                                              problem.left, problem.right)
                            .cwiseProduct(problem.V)
                            .sum();
    CHECK(mass == Approx((problem.kinetic(h) - problem.kinetic(-h)) / (2 * h)).epsilon(1e-6));
}
