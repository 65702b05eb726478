#include "random_outline.hpp"

#include <cmath>
#include <numbers>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/outline_piece.hpp"
#include "mesh/board/planform.hpp"

namespace vrid::tests {

namespace {

using Eigen::Vector2d;
using Points = std::vector<Vector2d>;

std::string line(const std::string& key, double value) {
    return key + " = " + text_of(value) + "\n";
}

// Lengths and widths of usual boards; mm.
PlanformShape board_shape(FileNumbers& numbers) {
    PlanformShape shape;
    shape.running_length = numbers.between(800, 1300, 1);
    shape.waist_width = numbers.between(220, 290, 0.5);
    const double hollow = numbers.chance.with(0.1) ? -15 : 0; // some bulge
    shape.nose_width = shape.waist_width + numbers.between(hollow, 60, 0.5);
    shape.tail_width = shape.waist_width + numbers.between(hollow, 60, 0.5);
    shape.waist_x = numbers.between(-50, 50, 0.5);
    shape.nose_length = numbers.between(60, 350, 1);
    shape.tail_length = numbers.between(60, 300, 1);
    shape.nose_fullness = numbers.between(0.2, 0.9, 0.01);
    shape.tail_fullness = numbers.between(0.2, 0.9, 0.01);
    return shape;
}

RandomOutline ground(double tail, double nose, double contact, double side) {
    RandomOutline outline;
    outline.tail = tail;
    outline.nose = nose;
    outline.contact = contact;
    outline.left = outline.right = side;
    return outline;
}

RandomOutline parametric(FileNumbers& numbers) {
    const PlanformShape shape = board_shape(numbers);
    const double contact = shape.running_length / 2;
    RandomOutline outline =
        ground(-contact - shape.tail_length, contact + shape.nose_length, contact,
               std::min({shape.waist_width, shape.nose_width, shape.tail_width}) / 2 - 10);
    outline.toml =
        line("running_length_mm", shape.running_length) +
        line("waist_width_mm", shape.waist_width) + line("nose_width_mm", shape.nose_width) +
        line("tail_width_mm", shape.tail_width) + line("waist_x_mm", shape.waist_x) +
        line("nose_length_mm", shape.nose_length) + line("tail_length_mm", shape.tail_length) +
        line("nose_fullness", shape.nose_fullness) + line("tail_fullness", shape.tail_fullness);
    return outline;
}

PlanformShape in_metres(PlanformShape shape) {
    for (double* length :
         {&shape.running_length, &shape.waist_width, &shape.nose_width, &shape.tail_width,
          &shape.waist_x, &shape.nose_length, &shape.tail_length}) {
        *length /= 1000;
    }
    return shape;
}

// Points equally far apart along the closed outline.
Points along(const Planform& planform, int count) {
    Points fine;
    for (const OutlinePiece& piece : planform.outline) {
        constexpr int parts = 400;
        for (int k = 0; k < parts; ++k) {
            fine.push_back(point_at(piece, static_cast<double>(k) / parts));
        }
    }
    fine.push_back(fine.front());
    double length = 0;
    for (std::size_t i = 1; i < fine.size(); ++i) {
        length += (fine[i] - fine[i - 1]).norm();
    }
    Points points;
    double passed = 0;
    for (std::size_t i = 1; i < fine.size(); ++i) {
        const double chord = (fine[i] - fine[i - 1]).norm();
        const double wanted = length * static_cast<double>(points.size()) / count;
        if (passed + chord > wanted && static_cast<int>(points.size()) < count) {
            points.push_back(fine[i - 1] + (wanted - passed) / chord * (fine[i] - fine[i - 1]));
        }
        passed += chord;
    }
    return points;
}

RandomOutline drawn(FileNumbers& numbers) {
    Chance& chance = numbers.chance;
    PlanformShape shape = board_shape(numbers);
    shape.nose_fullness = shape.tail_fullness = 0.55;
    const double contact = shape.running_length / 2;
    RandomOutline outline =
        ground(-contact - shape.tail_length, contact + shape.nose_length, contact,
               std::min({shape.waist_width, shape.nose_width, shape.tail_width}) / 2 - 12);
    const double narrow = chance.with(0.3) ? chance.between(0.95, 1) : 1; // the right side
    outline.right *= narrow;
    const int count = chance.count(60, 400);
    const int decimals = chance.count(count > 150 ? 2 : 1, 4);
    const double step = std::pow(10.0, -decimals);
    Points points = along(parametric_planform(in_metres(shape)), count);
    std::for_each(points.begin(), points.end(), [](Vector2d& p) { p *= 1000; });
    if (chance.with(0.5)) {
        std::reverse(points.begin(), points.end());
    }
    std::rotate(points.begin(), points.begin() + chance.count(0, count - 1), points.end());
    if (chance.with(0.3)) {
        points.push_back(points.front());
    }
    outline.csv = "x_mm,y_mm\n";
    for (const Vector2d& p : points) {
        const double y = p.y() < 0 ? narrow * p.y() : p.y();
        outline.csv += text_of(std::round(p.x() / step) * step) + "," +
                       text_of(std::round(y / step) * step) + "\n";
    }
    outline.toml =
        "outline_csv = \"outline.csv\"\n" + line("running_length_mm", shape.running_length);
    for (const char* key : {"contact_left_mm", "contact_right_mm"}) {
        if (chance.with(0.2)) {
            outline.toml += key + (" = " + text_of({-contact + chance.between(-3, 20),
                                                    contact - chance.between(-3, 20)})) +
                            "\n";
        }
    }
    return outline;
}

RandomOutline rectangle(FileNumbers& numbers) {
    const double size = numbers.chance.one_of<double>({1, 1, 1, 0.05, 3});
    const double length = numbers.hair(numbers.between(100 * size, 1500 * size, size));
    const double width = numbers.hair(numbers.between(20 * size, 320 * size, size));
    double running = length;
    std::string toml = "rectangle_mm = " + text_of({length, width}) + "\n";
    if (numbers.chance.with(0.5)) {
        running = std::min(length, numbers.between(0.5 * length, length, size));
        toml += line("running_length_mm", running);
    }
    RandomOutline outline = ground(-length / 2, length / 2, running / 2, width / 2);
    outline.toml = toml;
    return outline;
}

Points mirrored_polygon(const Points& left) { // from tail to nose
    Points all;
    for (const Vector2d& p : left) {
        all.emplace_back(p.x(), -p.y());
    }
    for (auto p = left.rbegin(); p != left.rend(); ++p) {
        all.push_back(*p);
    }
    return all;
}

RandomOutline polygon_of(const Points& points, const RandomOutline& where) {
    RandomOutline outline = where;
    std::string all;
    for (const Vector2d& p : points) {
        all += (all.empty() ? "" : ", ") + text_of({p.x(), p.y()});
    }
    outline.toml = "polygon_mm = [" + all + "]\n" + line("running_length_mm", 2 * where.contact);
    return outline;
}

RandomOutline polygon(FileNumbers& numbers) {
    Chance& chance = numbers.chance;
    const double size = chance.one_of<double>({1, 1, 1, 0.05, 2.5});
    const double a = numbers.between(300 * size, 800 * size, size); // half length
    const double b = numbers.between(60 * size, 160 * size, size);  // half width
    const int kind = chance.count(0, 4);
    if (kind == 0) { // sheared
        const double s = numbers.between(-60 * size, 60 * size, size);
        const Points corners{{-a, -b}, {a, -b}, {a + s, b}, {-a + s, b}};
        return polygon_of(corners, ground(-a + std::min(s, 0.0), a + std::max(s, 0.0),
                                          0.95 * (a - std::abs(s)), b));
    }
    if (kind == 1) { // round ended, of many corners
        const int corners = chance.count(12, 90);
        Points points;
        for (int k = 0; k < corners; ++k) {
            const double angle = 2 * std::numbers::pi * (k + 0.3) / corners;
            points.emplace_back(numbers.hair(a * std::cos(angle)), b * std::sin(angle));
        }
        return polygon_of(points, ground(-0.94 * a, 0.94 * a, 0.75 * a, 0.66 * b));
    }
    const double c = numbers.between(0.5 * a, 0.9 * a, size);
    if (kind == 2) { // tapered, blunt ends
        const double tail = numbers.between(0.6 * b, b, size);
        return polygon_of(mirrored_polygon({{-a, 0.3 * tail}, {-c, tail}, {c, b}, {a, 0.5 * b}}),
                          ground(-a, a, chance.with(0.5) ? c : 0.95 * c, tail));
    }
    if (kind == 3) { // pointed at both ends
        return polygon_of({{-a, 0}, {-c, -b}, {c, -b}, {a, 0}, {c, b}, {-c, b}},
                          ground(-a, a, c, b));
    }
    // a paddle: steps in the outline
    return polygon_of(
        mirrored_polygon({{-a, b}, {-c, b}, {-c, 0.7 * b}, {c, 0.7 * b}, {c, b}, {a, b}}),
        ground(-a, a, chance.with(0.5) ? a : 0.95 * a, 0.7 * b));
}

} // namespace

RandomOutline random_outline(FileNumbers& numbers) {
    const double kind = numbers.chance.between(0, 1);
    RandomOutline outline = kind < 0.55   ? parametric(numbers)
                            : kind < 0.7  ? drawn(numbers)
                            : kind < 0.85 ? rectangle(numbers)
                                          : polygon(numbers);
    outline.toml = "[planform]\n" + outline.toml;
    return outline;
}

} // namespace vrid::tests
