#include "solver/lines_along.hpp"

#include <algorithm>
#include <cmath>

#include "solver/cooling/mesh_place.hpp"
#include "solver/element/quadrature.hpp"

namespace vrid {

namespace {

// A station's share of a place: to the mean over the width, to the slope across it.
struct AcrossPoint {
    MeshPlace place;
    double of_mean = 0, of_slope = 0;
};

std::vector<AcrossPoint> across(const Planform& planform, const MeshPlaces& places, double x) {
    const Rule rule = gauss(4);
    std::vector<double> sides;
    for (const OutlinePlace& side : crossings(planform, x)) {
        sides.push_back(point_at(planform, side).y());
    }
    std::vector<std::array<double, 2>> points; // y, weight
    double width = 0;
    double middle = 0;
    for (std::size_t k = 0; k + 1 < sides.size(); k += 2) {
        const double half = (sides[k + 1] - sides[k]) / 2;
        for (Eigen::Index i = 0; i < rule.point.size(); ++i) {
            points.push_back({sides[k] + half * (1 + rule.point(i)), half * rule.weight(i)});
            width += points.back()[1];
            middle += points.back()[0] * points.back()[1];
        }
    }
    middle /= width;
    double spread = 0;
    for (const auto& [y, weight] : points) {
        spread += weight * (y - middle) * (y - middle);
    }
    std::vector<AcrossPoint> all;
    for (const auto& [y, weight] : points) {
        all.push_back({places.at({x, y}), weight / width, weight * (y - middle) / spread});
    }
    return all;
}

} // namespace

double line_step(const Planform& planform) {
    constexpr double centimetre = 0.01;
    constexpr double fewest = 60; // steps
    const auto [tail, nose] = x_extent(planform);
    return std::min(centimetre, (nose - tail) / fewest);
}

LinesAlong lines_along(const Planform& planform, const StudyResult& study, double step) {
    PlateModel model; // for its places alone: without a section
    model.mesh = study.mesh;
    model.numbering = study.numbering;
    model.reference = reference_element(study.numbering.degree);
    const MeshPlaces places(model);
    const auto [tail, nose] = x_extent(planform);
    const double length = nose - tail - 2 * end_of_lines;
    const auto count =
        static_cast<int>(std::ceil(length / (step > 0 ? step : line_step(planform))));
    LinesAlong lines;
    lines.deflection.resize(study.cases.size());
    lines.twist.resize(study.cases.size());
    for (int k = 0; k <= count; ++k) {
        lines.x.push_back(tail + end_of_lines + length * k / count);
        const std::vector<AcrossPoint> points = across(planform, places, lines.x.back());
        for (std::size_t i = 0; i < study.cases.size(); ++i) {
            const Eigen::VectorXd& motion = study.cases[i].motion;
            if (motion.size() == 0) {
                continue;
            }
            double mean = 0;
            double slope = 0;
            for (const AcrossPoint& point : points) {
                const double rise = rise_at(model, point.place, motion);
                mean += point.of_mean * rise;
                slope += point.of_slope * rise;
            }
            lines.deflection[i].push_back(mean);
            lines.twist[i].push_back(slope);
        }
    }
    return lines;
}

} // namespace vrid
