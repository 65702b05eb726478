#include "solver/system/loading.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"
#include "tests/solver/system/grid_model.hpp"

using namespace vrid;
using Eigen::VectorXd;

namespace {

// A motion whose w is a polynomial of the place.
template <class Shape> VectorXd deflection(const PlateModel& model, const Shape& shape) {
    VectorXd u = VectorXd::Zero(model.unknowns());
    for (int node = 0; node < model.numbering.nodes; ++node) {
        u(unknown(node, comp_w)) =
            shape(model.numbering.position(0, node), model.numbering.position(1, node));
    }
    return u;
}

} // namespace

TEST_CASE("an even line force has its total and the moments of an even force") {
    const PlateModel model = tests::grid_model(3);
    Loading loading = free_loading(model);
    add_line_force(loading, model, 0.25, 12);
    const auto work = [&](auto shape) { return loading.force.dot(deflection(model, shape)); };
    // means over y from -0.2 to 0.1 of 1, y, y^2 and y^3
    CHECK(work([](double, double) { return 1.0; }) == Approx(12));
    CHECK(work([](double, double y) { return y; }) == Approx(12 * -0.05));
    CHECK(work([](double, double y) { return y * y; }) == Approx(12 * 0.009 / 0.9));
    CHECK(work([](double, double y) { return y * y * y; }) == Approx(12 * (1e-4 - 16e-4) / 1.2));
    CHECK(work([](double x, double) { return x - 0.25; }) == Approx(0).margin(1e-14));
    CHECK(loading.force.cwiseAbs().sum() == Approx(12)); // on w alone, nowhere backwards
    add_line_force(loading, model, -0.1, 3);             // a second one is added
    CHECK(work([](double x, double) { return x; }) == Approx(12 * 0.25 - 3 * 0.1));
}

TEST_CASE("mean and slope of a line are those of its width, the slope by least squares") {
    const PlateModel model = tests::grid_model(3);
    const StationLine& line = model.mesh.lines[2];
    const VectorXd u = deflection(model, [](double, double y) { return 2 + 3 * y * y; });
    CHECK(line_mean(model, line, u, comp_w) == Approx(2.03));
    CHECK(line_mean(model, line, u, comp_by) == 0);
    // about its middle, h = 0.15: the best line of t^3 has slope 3/5 h^2, of t^2 none
    const VectorXd w = deflection(model, [](double x, double y) {
        const double t = y + 0.05;
        return 7 * x + 0.4 * t + 5 * t * t + 2 * t * t * t;
    });
    CHECK(line_slope(model, line, w) == Approx(0.4 + 2 * 0.6 * 0.0225));
    const auto load = line_slope_load(model, -0.1, 6);
    double slope = 0;
    for (const auto& entry : load) {
        CHECK(entry.col() == 6);
        slope += entry.value() * w(entry.row());
    }
    CHECK(slope == Approx(0.4 + 2 * 0.6 * 0.0225));
}

TEST_CASE("nodes of a line run from right to left, those of a strip fill it") {
    const PlateModel model = tests::grid_model(2);
    const std::vector<int> nodes = line_nodes(model, 0.25 + 9e-5);
    REQUIRE(nodes.size() == 5);
    const double y[] = {-0.2, -0.125, -0.05, 0.025, 0.1};
    for (std::size_t k = 0; k < 5; ++k) {
        CHECK(model.numbering.position(0, nodes[k]) == 0.25);
        CHECK(model.numbering.position(1, nodes[k]) == Approx(y[k]));
    }
    CHECK_THROWS_AS(line_nodes(model, 0.25 + 1.1e-4), SolveError);
    CHECK_THROWS_WITH(line_nodes(model, 0.2), Catch::Contains("x = 0.2"));
    const std::vector<int> strip = strip_nodes(model, -0.3, 0.25);
    CHECK(strip.size() == 25); // two columns of quads
    for (const int node : strip) {
        CHECK(model.numbering.position(0, node) >= -0.3);
        CHECK(model.numbering.position(0, node) <= 0.25);
    }
}

TEST_CASE("what is prescribed is fixed at its value, and nothing else is") {
    const PlateModel model = tests::grid_model(2, {0.3, 0, 0.3}, Interpolation::linear);
    Loading loading = free_loading(model);
    CHECK(loading.force.isZero());
    prescribe_turn(loading, model, line_nodes(model, -0.1), 0.2);
    prescribe(loading, {4}, comp_by, -0.7);
    hold_in_plane(loading, model, -0.5, 0.5);
    int fixed = 0;
    for (int node = 0; node < model.numbering.nodes; ++node) {
        const auto x = model.numbering.position(0, node), y = model.numbering.position(1, node);
        for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
            const bool turned = c == comp_w && x == -0.1;
            const bool middle = std::abs(y - 0.025) < 1e-9; // the nearest to the long axis
            const bool in_plane =
                middle && ((c == comp_u && x == -0.5) || (c == comp_v && std::abs(x) == 0.5));
            const bool is = loading.fixed[static_cast<std::size_t>(unknown(node, c))] != 0;
            CHECK(is == (turned || in_plane || (node == 4 && c == comp_by)));
            CHECK(loading.motion(unknown(node, c)) == Approx(turned                      ? 0.2 * y
                                                             : node == 4 && c == comp_by ? -0.7
                                                                                         : 0));
            fixed += is ? 1 : 0;
        }
    }
    CHECK(fixed == 5 + 1 + 3);
    // the surface rises by half its length: sine 0.5
    CHECK(cosine_at(model, line_nodes(model, 0.5)[0]) == Approx(std::sqrt(0.75)));
    CHECK(cosine_at(tests::grid_model(2), 0) == 1);
}
