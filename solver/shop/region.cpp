#include "solver/shop/region.hpp"

#include <algorithm>
#include <cmath>

#include <Eigen/Geometry>
#include <polyclipping/clipper.hpp>

#include "mesh/board/outline_piece.hpp"
#include "mesh/board/same_place.hpp"
#include "mesh/board/zones.hpp"

namespace vrid {

namespace {

namespace clip = ClipperLib;

constexpr double grid = 1e9;   // points of the library's whole numbers in 1 m
constexpr double sag = 2e-8;   // of chords under curves [m]
constexpr double crumb = 1e-7; // [m2]

clip::Path path_of(const Loop& loop) {
    clip::Path path;
    path.reserve(loop.size());
    for (const Eigen::Vector2d& p : loop) {
        path.emplace_back(std::llround(p.x() * grid), std::llround(p.y() * grid));
    }
    return path;
}

clip::Paths paths_of(const Region& region) {
    clip::Paths paths;
    for (const Loop& loop : region.loops) {
        paths.push_back(path_of(loop));
    }
    return paths;
}

Loop loop_of(const clip::Path& path) {
    Loop loop;
    loop.reserve(path.size());
    for (const clip::IntPoint& p : path) {
        loop.emplace_back(static_cast<double>(p.X) / grid, static_cast<double>(p.Y) / grid);
    }
    return loop;
}

Region region_of(const clip::Paths& paths) {
    Region region;
    for (const clip::Path& path : paths) {
        region.loops.push_back(loop_of(path));
    }
    return region;
}

// Without the slivers, some points of the grid wide, that a corner's rounding leaves beside a
// border that was cut twice.
clip::Paths cleaned(clip::Paths paths) {
    constexpr double width = 2.5; // of the grid
    clip::CleanPolygons(paths, width);
    std::erase_if(paths, [](const clip::Path& path) { return path.size() < 3; });
    return paths;
}

Region combined(const Region& a, const Region& b, clip::ClipType type) {
    clip::Clipper clipper;
    clipper.AddPaths(paths_of(a), clip::ptSubject, true);
    clipper.AddPaths(paths_of(b), clip::ptClip, true);
    clip::Paths paths;
    clipper.Execute(type, paths, clip::pftNonZero, clip::pftNonZero);
    return region_of(cleaned(paths));
}

double area(const Loop& loop) {
    double twice = 0;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const Eigen::Vector2d& a = loop[i];
        const Eigen::Vector2d& b = loop[(i + 1) % loop.size()];
        twice += (a.x() + b.x()) * (b.y() - a.y());
    }
    return twice / 2;
}

double distance_from_chord(const Eigen::Vector2d& p, const Eigen::Vector2d& a,
                           const Eigen::Vector2d& b) {
    const Eigen::Vector2d along = b - a;
    const double length = along.squaredNorm();
    const double t = length > 0 ? std::clamp((p - a).dot(along) / length, 0.0, 1.0) : 0.0;
    return (p - a - t * along).norm();
}

// Marks what must remain between two corners that do (Douglas and Peucker 1973).
void keep_between(const Loop& loop, std::size_t first, std::size_t last, double tolerance,
                  std::vector<bool>& kept) {
    std::vector<std::pair<std::size_t, std::size_t>> open{{first, last}};
    while (!open.empty()) {
        const auto [from, to] = open.back();
        open.pop_back();
        double farthest = tolerance;
        std::size_t corner = from;
        for (std::size_t i = from + 1; i < to; ++i) {
            const double off = distance_from_chord(loop[i], loop[from], loop[to % loop.size()]);
            if (off > farthest) {
                farthest = off;
                corner = i;
            }
        }
        if (corner != from) {
            kept[corner] = true;
            open.emplace_back(from, corner);
            open.emplace_back(corner, to);
        }
    }
}

Loop simplified(const Loop& loop, double tolerance) {
    std::size_t far = 0;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        far = (loop[i] - loop[0]).norm() > (loop[far] - loop[0]).norm() ? i : far;
    }
    std::vector<bool> kept(loop.size(), false);
    kept[0] = kept[far] = true;
    keep_between(loop, 0, far, tolerance, kept);
    keep_between(loop, far, loop.size(), tolerance, kept);
    Loop less;
    for (std::size_t i = 0; i < loop.size(); ++i) {
        if (kept[i]) {
            less.push_back(loop[i]);
        }
    }
    return less;
}

// Corners of the border moved to its left, crossings and loops turned over included: one point
// where the border hardly turns, an arc about a corner that points inwards.
void shift_corner(const Eigen::Vector2d& corner, const Eigen::Vector2d& before,
                  const Eigen::Vector2d& after, double distance, Loop& moved) {
    const double turn =
        std::atan2(before.x() * after.y() - before.y() * after.x(), before.dot(after));
    const Eigen::Vector2d n(-before.y(), before.x());
    const Eigen::Vector2d m(-after.y(), after.x());
    constexpr double slight = 0.005; // [rad]
    constexpr double sharp = 2;
    if (turn > -slight && turn < sharp) {
        moved.push_back(corner + (n + m) * (distance / (1 + n.dot(m))));
    } else if (turn >= sharp) {
        moved.insert(moved.end(), {corner + distance * n, corner, corner + distance * m});
    } else {
        const double step = std::sqrt(8 * sag / std::max(distance, sag));
        const int count = std::max(1, static_cast<int>(std::ceil(-turn / step)));
        for (int i = 0; i <= count; ++i) {
            const Eigen::Rotation2Dd by(turn * i / count);
            moved.push_back(corner + distance * (by * n));
        }
    }
}

Loop shifted(const Loop& loop, double distance) {
    Loop moved;
    const std::size_t count = loop.size();
    for (std::size_t i = 0; i < count; ++i) {
        const Eigen::Vector2d& corner = loop[i];
        const Eigen::Vector2d before = (corner - loop[(i + count - 1) % count]).normalized();
        const Eigen::Vector2d after = (loop[(i + 1) % count] - corner).normalized();
        shift_corner(corner, before, after, distance, moved);
    }
    return moved;
}

// Whether a point lies inside a region, at least this far from its border.
bool lies_inside(const Region& region, const Eigen::Vector2d& point, double distance) {
    bool within = false;
    for (const Loop& loop : region.loops) {
        within = within != in_polygon(loop, point);
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const Eigen::Vector2d along = loop[(i + 1) % loop.size()] - loop[i];
            const double t =
                std::clamp((point - loop[i]).dot(along) / along.squaredNorm(), 0.0, 1.0);
            if ((loop[i] + t * along - point).norm() < distance) {
                return false;
            }
        }
    }
    return within;
}

} // namespace

Region planform_region(const Planform& planform) {
    Loop loop;
    for (const OutlinePiece& piece : planform.outline) {
        const std::vector<double> at = flat_parameters(piece, sag);
        for (std::size_t i = 0; i + 1 < at.size(); ++i) {
            loop.push_back(point_at(piece, at[i]));
        }
    }
    return polygon_region(loop);
}

Region rectangle_region(const Range& x, const Range& y) {
    return {{{{x[0], y[0]}, {x[1], y[0]}, {x[1], y[1]}, {x[0], y[1]}}}};
}

Region polygon_region(const Loop& corners) {
    return combined({{corners}}, {}, clip::ctUnion);
}

Region common(const Region& a, const Region& b) {
    return combined(a, b, clip::ctIntersection);
}

Region united(const Region& a, const Region& b) {
    return combined(a, b, clip::ctUnion);
}

Region without(const Region& a, const Region& b) {
    return combined(a, b, clip::ctDifference);
}

Region inset(const Region& region, double distance) {
    if (distance == 0) {
        return region;
    }
    clip::Paths raw;
    for (const Loop& loop : region.loops) {
        raw.push_back(path_of(shifted(loop, distance)));
    }
    clip::Clipper clipper;
    clipper.AddPaths(raw, clip::ptSubject, true);
    clip::Paths paths;
    clipper.Execute(clip::ctUnion, paths, clip::pftPositive); // what was turned over is gone
    Region left = region_of(paths);
    std::erase_if(left.loops, [&](const Loop& loop) { // what was turned over both ways is not
        return !lies_inside(region, loop.front(), distance - same_place);
    });
    return left;
}

Region mirrored(const Region& region) {
    Region image = region;
    for (Loop& loop : image.loops) {
        for (Eigen::Vector2d& p : loop) {
            p.y() = -p.y();
        }
        std::ranges::reverse(loop);
    }
    return image;
}

Region turned(const Region& region, double angle) {
    const Eigen::Vector2d axis(std::cos(angle), std::sin(angle));
    Region image = region;
    for (Loop& loop : image.loops) {
        for (Eigen::Vector2d& p : loop) {
            p = {axis.x() * p.x() - axis.y() * p.y(), axis.y() * p.x() + axis.x() * p.y()};
        }
    }
    return image;
}

std::vector<Region> connected_parts(const Region& region) {
    clip::Clipper clipper;
    clipper.AddPaths(paths_of(region), clip::ptSubject, true);
    clip::PolyTree tree;
    clipper.Execute(clip::ctUnion, tree, clip::pftNonZero);
    std::vector<Region> parts;
    for (const clip::PolyNode* node = tree.GetFirst(); node != nullptr; node = node->GetNext()) {
        if (node->IsHole()) {
            continue;
        }
        Region part{{loop_of(node->Contour)}};
        for (const clip::PolyNode* hole : node->Childs) {
            part.loops.push_back(loop_of(hole->Contour));
        }
        if (area(part) > crumb) {
            parts.push_back(std::move(part));
        }
    }
    const auto place = [](const Region& part) {
        const Extent e = extent(part);
        return std::pair(std::round(1e4 * (e.x[0] + e.x[1])), e.y[0] + e.y[1]);
    };
    std::ranges::stable_sort(parts,
                             [&](const Region& a, const Region& b) { return place(a) < place(b); });
    return parts;
}

double area(const Region& region) {
    double sum = 0;
    for (const Loop& loop : region.loops) {
        sum += area(loop);
    }
    return sum;
}

Extent extent(const Region& region) {
    const Eigen::Vector2d& first = region.loops.front().front();
    Extent e{{first.x(), first.x()}, {first.y(), first.y()}};
    for (const Loop& loop : region.loops) {
        for (const Eigen::Vector2d& p : loop) {
            e.x = {std::min(e.x[0], p.x()), std::max(e.x[1], p.x())};
            e.y = {std::min(e.y[0], p.y()), std::max(e.y[1], p.y())};
        }
    }
    return e;
}

Region simplified(const Region& region, double tolerance) {
    Region less;
    for (const Loop& loop : region.loops) {
        less.loops.push_back(simplified(loop, tolerance));
    }
    return less;
}

} // namespace vrid
