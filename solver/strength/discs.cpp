#include "solver/strength/discs.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <set>
#include <tuple>

#include "mesh/lobatto.hpp"
#include "solver/element/director_shell.hpp"
#include "solver/strength/lagrange.hpp"
#include "solver/system/large_motion.hpp"

namespace vrid {

namespace {

constexpr double spacing = 15e-3;
constexpr int most_intervals = 6;

// Of the unit disc; symmetric about both axes, so that a mirrored board has mirrored means.
std::vector<AreaPoint> polar_rule(int radii, int angles) {
    const Rule rule = gauss(radii);
    std::vector<AreaPoint> polar;
    for (int i = 0; i < radii; ++i) {
        const double r = (1 + rule.point(i)) / 2;
        for (int k = 0; k < angles; ++k) {
            const double turn = (k + 0.5) * 2 * std::numbers::pi / angles;
            polar.push_back({r * Vector2d(std::cos(turn), std::sin(turn)),
                             rule.weight(i) / 2 * r * 2 * std::numbers::pi / angles});
        }
    }
    return polar;
}

} // namespace

const Eigen::VectorXd& strain_nodes() {
    static const Eigen::VectorXd nodes = lobatto(strain_points).point;
    return nodes;
}

StrainField strain_field(const PlateModel& model, const Eigen::VectorXd& u) {
    const ReferenceElement reference = reference_element(model.reference.p, strain_nodes());
    StrainField field;
    field.reserve(model.mesh.quads.size());
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        const ElementTables tables =
            element_tables(reference, element_nodes(model, quad), model.rest.get());
        field.push_back(element_strains(reference, tables, quad_part(model, quad, u)));
    }
    return field;
}

StrainField bent_strain_field(const PlateModel& model, const Eigen::VectorXd& u) {
    const ReferenceElement reference = reference_element(model.reference.p, strain_nodes());
    const RestShape rest = model.rest ? *model.rest : flat_blank();
    StrainField field;
    field.reserve(model.mesh.quads.size());
    for (int quad = 0; quad < static_cast<int>(model.mesh.quads.size()); ++quad) {
        const ShellTables tables = shell_tables(reference, element_nodes(model, quad), rest);
        field.push_back(shell_strains(reference, tables, quad_part(model, quad, u)).strain);
    }
    return field;
}

Eigen::VectorXd mean_strain_load(const PlateModel& model, const Disc& disc,
                                 const std::vector<char>& held,
                                 const Eigen::Matrix<double, 8, 1>& by) {
    const ReferenceElement reference = reference_element(model.reference.p, strain_nodes());
    Eigen::VectorXd load = Eigen::VectorXd::Zero(model.unknowns());
    double area = 0;
    for (const DiscPart& part : disc.parts) {
        area += held[static_cast<std::size_t>(part.quad)] == 0 ? part.area : 0;
    }
    for (const DiscPart& part : disc.parts) {
        if (held[static_cast<std::size_t>(part.quad)] != 0) {
            continue;
        }
        const std::vector<int>& nodes =
            model.numbering.quad_nodes[static_cast<std::size_t>(part.quad)];
        const ElementTables tables =
            element_tables(reference, element_nodes(model, part.quad), model.rest.get());
        Eigen::VectorXd unit =
            Eigen::VectorXd::Zero(unknowns_per_node * static_cast<Index>(nodes.size()));
        for (Index k = 0; k < unit.size(); ++k) {
            unit(k) = 1;
            const auto node = static_cast<std::size_t>(k / unknowns_per_node);
            load(Index(unknowns_per_node) * nodes[node] + k % unknowns_per_node) +=
                by.dot(element_strains(reference, tables, unit) * part.weight) / area;
            unit(k) = 0;
        }
    }
    return load;
}

std::optional<Eigen::Matrix<double, 8, 1>> mean_strain(const Disc& disc, const StrainField& strain,
                                                       const std::vector<char>& held) {
    Eigen::Matrix<double, 8, 1> sum = Eigen::Matrix<double, 8, 1>::Zero();
    double area = 0;
    for (const DiscPart& part : disc.parts) {
        const auto quad = static_cast<std::size_t>(part.quad);
        if (held[quad] == 0) {
            sum += strain[quad] * part.weight;
            area += part.area;
        }
    }
    const bool inside_held = std::ranges::all_of(
        disc.homes, [&](int quad) { return held[static_cast<std::size_t>(quad)] != 0; });
    if (area <= 0 || inside_held) {
        return std::nullopt;
    }
    return sum / area;
}

DiscMaker::DiscMaker(const Mesh& mesh, SectionCache& sections)
    : sections_(sections), places_(mesh) {
    const Eigen::MatrixXd to_inner = geometry_to_points(mesh, gauss(2).point);
    for (int quad = 0; quad < places_.count(); ++quad) {
        stack_.push_back(common_stack(quad_points(mesh, quad, to_inner), 2, sections));
    }
}

int DiscMaker::stack_at(const Spot& spot, const Vector2d& p) {
    const int whole = stack_[static_cast<std::size_t>(spot.quad)];
    return whole >= 0 ? whole : sections_.stack_index(p);
}

std::optional<DiscMaker::Spot> DiscMaker::find(const Vector2d& p, int stack, int first_quad) {
    const auto fits = [&](int quad) -> std::optional<Spot> {
        if (const auto xi = places_.inside(quad, p)) {
            const Spot spot{quad, *xi};
            if (stack < 0 || stack_at(spot, p) == stack) {
                return spot;
            }
        }
        return std::nullopt;
    };
    if (first_quad >= 0) {
        if (const auto spot = fits(first_quad)) {
            return spot;
        }
    }
    for (const int quad : places_.near(p)) {
        const int whole = stack_[static_cast<std::size_t>(quad)];
        if (quad != first_quad && (stack < 0 || whole < 0 || whole == stack)) {
            if (const auto spot = fits(quad)) {
                return spot;
            }
        }
    }
    return std::nullopt;
}

void DiscMaker::add_part(Disc& disc, int quad, const std::vector<AreaPoint>& points) {
    DiscPart part{quad, 0, Eigen::VectorXd::Zero(strain_points * strain_points)};
    const bool several = stack_[static_cast<std::size_t>(quad)] < 0;
    static const Lagrange<strain_points> basis(strain_nodes());
    Vector2d xi(0, 0);
    for (const AreaPoint& point : points) {
        if (several && sections_.stack_index(point.at) != disc.stack) {
            continue;
        }
        if (!places_.to_place(quad, point.at, xi)) {
            xi.setZero(); // the last point's place may be a bad start
            if (!places_.to_place(quad, point.at, xi)) {
                xi.setZero();
                continue;
            }
        }
        part.area += point.area;
        const auto a = basis.at(xi.x());
        const auto b = basis.at(xi.y());
        for (int j = 0; j < strain_points; ++j) {
            part.weight.segment<strain_points>(strain_points * j) += point.area * b(j) * a;
        }
    }
    if (part.area > 0) {
        disc.parts.push_back(std::move(part));
    }
}

void DiscMaker::find_homes(Disc& disc) {
    disc.homes.push_back(disc.quad);
    for (const int quad : places_.near(disc.centre)) {
        const int whole = stack_[static_cast<std::size_t>(quad)];
        if (quad != disc.quad && (whole < 0 || whole == disc.stack) &&
            places_.inside(quad, disc.centre, 1e-4)) {
            disc.homes.push_back(quad);
        }
    }
}

Disc DiscMaker::disc(const Spot& spot, const Vector2d& p, int stack, double scale) {
    static const std::vector<AreaPoint> whole = polar_rule(3, 8);
    Disc disc{p, spot.quad, stack, 0, {}, {}};
    find_homes(disc);
    disc.diameter = scale * std::max(least_diameter, sections_.section(stack, p).thickness);
    const double radius = disc.diameter / 2;
    if (stack_[static_cast<std::size_t>(spot.quad)] >= 0 &&
        places_.wholly_inside(spot.quad, p, radius)) {
        std::vector<AreaPoint> points = whole;
        for (AreaPoint& one : points) {
            one = {p + radius * one.at, radius * radius * one.area};
        }
        add_part(disc, spot.quad, points);
        return disc;
    }
    const Polygon round = disc_polygon(p, radius);
    for (const int quad : places_.overlapped(p, 1.01 * radius)) {
        const int of_quad = stack_[static_cast<std::size_t>(quad)];
        if (of_quad < 0 || of_quad == stack) {
            add_part(disc, quad, area_points(clipped(places_.rim(quad), round)));
        }
    }
    return disc;
}

std::optional<Disc> DiscMaker::at(const Vector2d& point, int stack, double scale) {
    const auto spot = find(point, stack, -1);
    if (!spot) {
        return std::nullopt;
    }
    Disc made = disc(*spot, point, stack >= 0 ? stack : stack_at(*spot, point), scale);
    return made.parts.empty() ? std::nullopt : std::optional(std::move(made));
}

std::vector<Disc> DiscMaker::all() {
    std::vector<Disc> discs;
    std::set<std::tuple<std::int64_t, std::int64_t, int>> known;
    const auto intervals = [](double length) {
        return std::clamp(static_cast<int>(std::ceil(length / spacing)), 1, most_intervals);
    };
    for (int quad = 0; quad < places_.count(); ++quad) {
        const auto length = [&](const Vector2d& a, const Vector2d& b) {
            return (places_.position(quad, a) - places_.position(quad, b)).norm();
        };
        const int nx = intervals(std::max(length({-1, -1}, {1, -1}), length({-1, 1}, {1, 1})));
        const int ny = intervals(std::max(length({-1, -1}, {-1, 1}), length({1, -1}, {1, 1})));
        for (int j = 0; j <= ny; ++j) {
            for (int i = 0; i <= nx; ++i) {
                const Spot spot{quad, {2.0 * i / nx - 1, 2.0 * j / ny - 1}};
                const Vector2d p = places_.position(quad, spot.xi);
                const int stack = stack_at(spot, p);
                constexpr double same = 1e-6; // [m]
                if (known.insert({std::llround(p.x() / same), std::llround(p.y() / same), stack})
                        .second) {
                    discs.push_back(disc(spot, p, stack));
                    if (discs.back().parts.empty()) {
                        discs.pop_back();
                    }
                }
            }
        }
    }
    return discs;
}

} // namespace vrid
