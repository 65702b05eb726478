#include <catch2/catch.hpp>

#include "mesh/mesher.hpp"

TEST_CASE("a distorted patch keeps its outline, its count and convex quads") {
    for (const double distort : {0.0, 0.2, 0.4}) {
        const vrid::Mesh mesh =
            vrid::mesh_patch({{{0, 0}, {2, 0}, {2.5, 1}, {0, 1.2}}}, 5, 4, distort);
        CHECK(mesh.quads.size() == 20);
        CHECK(mesh.vertices.size() == 30);
        CHECK(mesh.edges.size() == 49);
        CHECK(mesh.outline.size() == 18);
        CHECK(mesh.min_scaled_jacobian > 0.3);
        double area = 0;
        for (const auto& side : mesh.outline) {
            const auto& quad = mesh.quads[static_cast<std::size_t>(side.quad)];
            const auto& a =
                mesh.vertices[static_cast<std::size_t>(quad[static_cast<std::size_t>(side.side)])];
            const auto& b = mesh.vertices[static_cast<std::size_t>(
                quad[static_cast<std::size_t>((side.side + 1) % 4)])];
            area += (a.x() * b.y() - a.y() * b.x()) / 2;
        }
        CHECK(area == Approx(2.5).epsilon(1e-12)); // shoelace by hand
    }
}
