// Strips turned between rigid ends that leave warping free, and the twist coupon.
#include <cmath>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/plate.hpp"

namespace vrid::published {

namespace {

std::array<Point, 4> strip(double length, double width) {
    return {{{-length / 2, -width / 2},
             {length / 2, -width / 2},
             {length / 2, width / 2},
             {-length / 2, width / 2}}};
}

// GJ of a strip whose ends turn as a whole, normals too.
double torsion_stiffness(const Section<double>& section, double width, double thickness, int p) {
    const double length = 2 * width;
    // at the free sides a layer about thickness / 3 wide: three quads in the last thickness
    const int layers = width / thickness > 4 ? 4 : 2;
    const PlateModel model = make_model(
        graded_patch(strip(length, width), {0, 0.5, 1}, graded(4, layers, 0.3)), p, section);
    return tests::torsion_stiffness(model, length);
}

Check isotropic(double ratio, double published, bool st_venant) {
    Check check;
    check.name = "torsion of a strip, b/t = " + std::to_string(static_cast<int>(ratio)) +
                 ", GJ / G b t3" + (st_venant ? ", solid bar" : ", first-order plate");
    check.source =
        st_venant
            ? "St Venant's series: Timoshenko and Goodier, Theory of Elasticity, "
              "1970, section 109 (from memory), recomputed"
            : "first-order closed form 1/3 (1 - 2 tanh(l b / 2) / l b), l2 = 12 "
              "kappa / t2; the layer at the edges is that of Reissner, The effect of transverse "
              "shear deformation on the bending of elastic plates, 1945 (from memory)";
    check.published = published;
    check.rounding = 5e-7;
    check.kind = st_venant ? Kind::other_model : Kind::judged;
    check.ours = [ratio] {
        const double t = 0.01;
        const Section<double> section = tests::isotropic_section(4e9 * 2.6, 0.3, t);
        return at_two_degrees(6, [&](int p) {
            return torsion_stiffness(section, ratio * t, t, p) / (4e9 * ratio * std::pow(t, 4));
        });
    };
    return check;
}

Check orthotropic(double b, double t, double Gxy, double Gxz, double published, double rounding,
                  bool solid) {
    Check check;
    check.name = "torsion of an orthotropic strip " + std::to_string(static_cast<int>(b)) + " x " +
                 std::to_string(static_cast<int>(t)) +
                 ", Gxy / Gxz = " + std::to_string(static_cast<int>(std::lround(Gxy / Gxz))) +
                 (solid ? ", GJ, solid bar" : ", GJ, first-order plate");
    check.source = solid
                       ? "Lekhnitskii, Theory of Elasticity of an Anisotropic Elastic Body, 1963, "
                         "section 33 (from memory), recomputed"
                       : "first-order closed form, l2 = S_xz / D66; the layer at the edges after "
                         "Reissner, 1945, orthotropic (from memory)";
    check.published = published;
    check.rounding = rounding;
    check.kind = solid ? Kind::other_model : Kind::judged;
    check.ours = [=] {
        const PlyConstants<double> ply{30, 5, 0.3, Gxy, Gxz, 0.5 * Gxz, 1, 0, 0};
        const Section<double> s =
            tests::moved_to(section(std::vector<Lamina<double>>{lamina(ply, 0.0, t)}), t / 2);
        return at_two_degrees(6, [&](int p) { return torsion_stiffness(s, b, t, p); });
    };
    return check;
}

void add_edge_moment(Loading& loading, const PlateModel& model, bool across, double at, double m) {
    const Rule rule = lobatto(model.reference.p + 1);
    for (const OutlineEdge& side : model.mesh.outline) {
        const int edge = model.mesh.quad_edges[static_cast<std::size_t>(side.quad)]
                                              [static_cast<std::size_t>(side.side)];
        const std::vector<int> line = edge_nodes(model.mesh, model.numbering, edge);
        const Point first = model.numbering.position.col(line.front());
        const Point last = model.numbering.position.col(line.back());
        const int axis = across ? 0 : 1;
        if (std::abs(first(axis) - at) + std::abs(last(axis) - at) > 1e-9) {
            continue;
        }
        for (std::size_t i = 0; i < line.size(); ++i) {
            loading.force(unknowns_per_node * line[i] + (across ? comp_by : comp_bx)) +=
                m * (last - first).norm() / 2 * rule.weight(static_cast<Eigen::Index>(i));
        }
    }
}

// Three corners held, the fourth loaded by P: the corner forces as the edge moment P/2 they make.
double coupon(int p) {
    const double a = 0.15;
    PlateModel model = make_model(mesh_patch(strip(a, a), 3, 3, 0.3), p,
                                  tests::isotropic_section(4e9 * 2.6, 0.3, 0.004));
    Loading loading = free_loading(model);
    for (const double sign : {-1.0, 1.0}) {
        add_edge_moment(loading, model, true, sign * a / 2, sign * 50);
        add_edge_moment(loading, model, false, sign * a / 2, sign * 50);
    }
    for (const auto& [x, y] : {std::pair{-1, -1}, {1, -1}, {-1, 1}}) {
        prescribe(loading, {tests::nearest_node(model, x * a / 2, y * a / 2)}, comp_w);
    }
    hold_in_plane(loading, model, -a / 2, a / 2);
    return std::abs(bent(std::move(model), loading).w(a / 2, a / 2)) * 1e3;
}

} // namespace

std::vector<Check> torsion() {
    return {isotropic(2, 0.228301, false),
            isotropic(3, 0.263071, false),
            isotropic(5, 0.291170, false),
            isotropic(10, 0.312251, false),
            isotropic(20, 0.322792, false),
            isotropic(50, 0.329117, false),
            isotropic(3, 0.263317, true),
            isotropic(10, 0.312325, true),
            isotropic(50, 0.329132, true),
            orthotropic(10, 1, 5, 0.5, 13.33364, 5e-6, false),
            orthotropic(10, 1, 5, 0.05, 6.981880, 5e-7, false),
            orthotropic(25, 10, 1, 0.1, 2678.109, 5e-4, false),
            orthotropic(10, 1, 5, 0.5, 13.34528, 5e-6, true),
            orthotropic(10, 1, 5, 0.05, 7.028851, 5e-7, true),
            orthotropic(25, 10, 1, 0.1, 2708.602, 5e-4, true),
            {"plate-twist coupon 150 x 150 x 4 mm, G = 4 GPa, 100 N: corner travel, mm",
             "ISO 15310, Fibre-reinforced plastic composites - in-plane shear modulus by the plate "
             "twist method, 1999 (from memory): w = 3 P a b / G h3",
             26.3672, 5e-5, [] { return at_two_degrees(3, coupon); }}};
}

} // namespace vrid::published
