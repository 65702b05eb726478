#include "solver/element/shell_line.hpp"

#include <array>

#include "solver/element/director_strain.hpp"

namespace vrid {

namespace {

// The local shape at a point, from its local motion component by component.
template <class T, class Component>
LocalShape<T> local_shape(const RestFrame& f, const Component& q) {
    const auto slope = [&](Index side) -> std::array<T, 3> { // r,x or r,y
        const Index i = 5 * side;
        return {f.C * q(i) + f.S * q(i + 2), q(i + 1), f.C * q(i + 2) - f.S * q(i)};
    };
    return {slope(1), slope(2), {q(3), q(4)}, {q(8), q(9)}, {q(13), q(14)}};
}

// The local shape's forces as those on the local motion.
template <class T> std::array<T, 15> on_motion(const RestFrame& f, const LocalShape<T>& on) {
    std::array<T, 15> force{};
    std::size_t i = 5;
    for (const std::array<T, 3>& h : {on.h1, on.h2}) {
        force[i] = f.C * h[0] - f.S * h[2];
        force[i + 1] = h[1];
        force[i + 2] = f.S * h[0] + f.C * h[2];
        i += 5;
    }
    i = 3;
    for (const std::array<T, 2>& b : {on.b, on.b_x, on.b_y}) {
        force[i] = b[0];
        force[i + 1] = b[1];
        i += 5;
    }
    return force;
}

const RestFrame& frame_of(const ShellPoints& points, Index p) {
    return points.frame[static_cast<std::size_t>(p)];
}

// Motions of some points along u + a x.
struct MotionLine {
    LocalMotions at, by;
    MotionLine(const ShellPoints& points, const VectorXd& u, const VectorXd& x)
        : at(local_motions(points, u)), by(local_motions(points, x)) {}
    [[nodiscard]] LocalShape<Taylor> shape(const ShellPoints& points, Index p) const {
        return local_shape<Taylor>(frame_of(points, p), [&](Index i) {
            return Taylor{at(i, p), by(i, p), 0};
        });
    }
};

StrainLine local_line(const ShellPoints& points, const VectorXd& u, const VectorXd& x) {
    const MotionLine line(points, u, x);
    const Index count = line.at.cols();
    StrainLine all{PointStrains(8, count), PointStrains(8, count), PointStrains(8, count)};
    for (Index p = 0; p < count; ++p) {
        const double kap = frame_of(points, p).kap;
        const LocalShape<Taylor> at = line.shape(points, p);
        const auto s = director_strain(at, shape_vectors(at, kap), kap);
        for (Index i = 0; i < 8; ++i) {
            const Taylor& one = s[static_cast<std::size_t>(i)];
            all.value(i, p) = one.value;
            all.first(i, p) = one.first;
            all.second(i, p) = one.second;
        }
    }
    return all;
}

PointStrains local_field(const ShellPoints& points, const VectorXd& u) {
    const LocalMotions motions = local_motions(points, u);
    PointStrains all(8, motions.cols());
    for (Index p = 0; p < motions.cols(); ++p) {
        const double kap = frame_of(points, p).kap;
        const auto at = local_shape<double>(frame_of(points, p), motions.col(p));
        const auto s = director_strain(at, shape_vectors(at, kap), kap);
        all.col(p) = Eigen::Map<const Strain8>(s.data());
    }
    return all;
}

// Second derivative of the points' forces on the unknowns, the stresses changing too.
void add_second(const ShellPoints& points, const MotionLine& line, const PointStrains& value,
                const PointStrains& first, const PointStrains& second, VectorXd& force) {
    const Index count = line.at.cols();
    LocalMotions local(15, count);
    for (Index p = 0; p < count; ++p) {
        const double kap = frame_of(points, p).kap;
        std::array<Taylor, 8> stress;
        for (Index i = 0; i < 8; ++i) {
            stress[static_cast<std::size_t>(i)] = {value(i, p), first(i, p), second(i, p)};
        }
        const LocalShape<Taylor> at = line.shape(points, p);
        const auto on = on_motion(frame_of(points, p),
                                  director_forces(at, shape_vectors(at, kap), kap, stress));
        for (Index i = 0; i < 15; ++i) {
            local(i, p) = on[static_cast<std::size_t>(i)].second;
        }
    }
    Eigen::Map<Eigen::Matrix<double, unknowns_per_node, Eigen::Dynamic>> nodes(
        force.data(), unknowns_per_node, points.N.cols());
    nodes += local.topRows<5>() * points.N + local.middleRows<5>(5) * points.Gx +
             local.bottomRows<5>() * points.Gy;
}

} // namespace

StrainLine strain_line(const ReferenceElement& r, const ShellTables& t, const VectorXd& u,
                       const VectorXd& x) {
    const StrainLine rule = local_line(t.rule, u, x);
    const StrainLine xi = local_line(t.xi_tie, u, x);
    const StrainLine eta = local_line(t.eta_tie, u, x);
    const StrainLine both = local_line(t.both_tie, u, x);
    return {tied_strains(r, t, {rule.value, xi.value, eta.value, both.value}),
            tied_strains(r, t, {rule.first, xi.first, eta.first, both.first}),
            tied_strains(r, t, {rule.second, xi.second, eta.second, both.second})};
}

PointStrains strains_at(const ReferenceElement& r, const ShellTables& t, const VectorXd& u) {
    return tied_strains(r, t,
                        {local_field(t.rule, u), local_field(t.xi_tie, u),
                         local_field(t.eta_tie, u), local_field(t.both_tie, u)});
}

VectorXd second_forces(const ReferenceElement& r, const ShellTables& t, const VectorXd& u,
                       const VectorXd& x, const StrainLine& resultants) {
    const PointFields value = point_stresses(r, t, resultants.value);
    const PointFields first = point_stresses(r, t, resultants.first);
    const PointFields second = point_stresses(r, t, resultants.second);
    VectorXd force = VectorXd::Zero(u.size());
    const auto add = [&](const ShellPoints& points, PointStrains PointFields::*at) {
        add_second(points, MotionLine(points, u, x), value.*at, first.*at, second.*at, force);
    };
    add(t.rule, &PointFields::rule);
    add(t.xi_tie, &PointFields::xi_tie);
    add(t.eta_tie, &PointFields::eta_tie);
    add(t.both_tie, &PointFields::both_tie);
    return force;
}

} // namespace vrid
