#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

namespace vrid {

/// The shop's parametric planform, as board-file keys [m, -].
struct PlanformShape {
    double running_length = 0;   ///< between the contact stations [m]
    double waist_width = 0;      ///< [m]
    double nose_width = 0;       ///< at the front contact station [m]
    double tail_width = 0;       ///< at the rear contact station [m]
    double waist_x = 0;          ///< station of the waist [m]
    double nose_length = 0;      ///< from the front contact station to the tip [m]
    double tail_length = 0;      ///< from the rear contact station to the tip [m]
    double nose_fullness = 0.55; ///< how full the tip is, 0.2..0.9
    double tail_fullness = 0.55; ///< how full the tip is, 0.2..0.9
};

/// One smooth piece of the outline: a cubic Bezier, or an arc of a circle when `radius` > 0.
/// (A straight piece is a cubic with evenly spaced control points.)
struct OutlinePiece {
    std::array<Eigen::Vector2d, 4> control{Eigen::Vector2d::Zero(), Eigen::Vector2d::Zero(),
                                           Eigen::Vector2d::Zero(),
                                           Eigen::Vector2d::Zero()}; ///< cubic
    Eigen::Vector2d centre = Eigen::Vector2d::Zero();                ///< arc
    double radius = 0;                                               ///< of an arc [m]; 0: a cubic
    double angle_from = 0;        ///< where an arc begins, from +x towards +y [rad]
    double angle_to = 0;          ///< where an arc ends [rad]
    bool corner_at_start = false; ///< the tangent turns where this piece begins
};

/// The planform: a closed outline, counter-clockwise, no self-crossing, and its contact stations.
struct Planform {
    std::vector<OutlinePiece> outline; ///< each begins where the one before ends
    double running_length = 0;         ///< contact stations at +- half of it [m]
    /// Where an edge's own contact stations are not there: of the left (+y) and of the right one,
    /// {tail, nose} [m]. Numbers of edge hold go by them, the bench cases by the running length.
    std::array<std::optional<std::array<double, 2>>, 2> edge_contact;
    std::optional<PlanformShape> shape; ///< when given by the parametric keys
};

/// A place on the outline: piece index plus parameter 0..1 in the piece.
struct OutlinePlace {
    int piece = 0; ///< in Planform::outline
    double t = 0;  ///< 0..1
};

/// Builds the outline of board-file.md's parametric planform: sidecut circle through the three
/// half widths, one cubic Bezier a side and tip. \throws InputError if no such board exists (the
/// caller has checked signs and ranges; this catches geometry such as a tangent that cannot close).
Planform parametric_planform(const PlanformShape& shape);
/// length along x, width along y, centred on the origin; running length is the length.
Planform rectangle_planform(double length, double width);
/// Straight-sided; any direction. \throws InputError when it crosses itself or has no area.
Planform polygon_planform(const std::vector<Eigen::Vector2d>& corners, double running_length);
/// Periodic cubic spline in chord length through the points; broken (not-a-knot) at corners.
/// \throws InputError when fewer than 20 points, or the curve crosses itself.
Planform spline_planform(const std::vector<Eigen::Vector2d>& points,
                         const std::vector<bool>& corner, double running_length);

Eigen::Vector2d point_at(const Planform& planform, OutlinePlace place); ///< [m]
/// Derivative by the piece's parameter (not of unit length).
Eigen::Vector2d tangent_at(const Planform& planform, OutlinePlace place);

double area(const Planform& planform);              ///< [m2]
Eigen::Vector2d centroid(const Planform& planform); ///< [m]
/// Smallest and largest x of the outline: tail tip and nose tip [m].
std::array<double, 2> x_extent(const Planform& planform);
/// Places where the outline crosses the station x, sorted by rising y; even in number.
std::vector<OutlinePlace> crossings(const Planform& planform, double x);
/// Lowest and highest y of the board at station x; nothing outside the board.
std::optional<std::array<double, 2>> y_extent(const Planform& planform, double x);
/// Width at station x [m]; 0 outside.
double width_at(const Planform& planform, double x);
/// Whether the point lies inside the outline.
bool contains(const Planform& planform, const Eigen::Vector2d& point);
/// Contact stations of the edges {left (+y), right}, each {tail, nose} [m].
std::array<std::array<double, 2>, 2> edge_contacts(const Planform& planform);
/// Sidecut radius per side {left (+y), right}: circle through the half widths at the contact
/// stations and the narrowest point between [m]; infinity if straight.
std::array<double, 2> sidecut_radius(const Planform& planform);

/// Distances to the outline, many at once: a polyline of the outline and, for each cell of a grid
/// over it, the chords that can be nearest to a point of the cell. Safe to share between threads.
/// Distance is the smallest over the whole outline (normal to it), exact to 1e-9 m.
class OutlineDistance {
  public:
    explicit OutlineDistance(const Planform& planform); ///< keeps a copy of the outline
    [[nodiscard]] double operator()(const Eigen::Vector2d& point) const;    ///< >= 0 [m]
    [[nodiscard]] OutlinePlace nearest(const Eigen::Vector2d& point) const; ///< there

  private:
    struct Chord {
        Eigen::Vector2d a, d; ///< its start, and from there to its end
        double inverse;       ///< 1 / d.d
        int piece;
        double from, to; ///< parameters of its ends in the piece
        [[nodiscard]] double share(const Eigen::Vector2d& p) const; ///< where p is nearest
        [[nodiscard]] double squared_distance(const Eigen::Vector2d& p) const;
    };
    struct Found {
        double squared; ///< distance [m2]
        OutlinePlace place;
    };
    [[nodiscard]] Found search(const Eigen::Vector2d& point) const;
    [[nodiscard]] Found refined(const Chord& chord, const Eigen::Vector2d& point) const;
    using Cell = std::array<int, 2>; ///< column, row
    /// Fills near_ for the cells from `from` to before `to`.
    void share_out(const std::vector<int>& among, Cell from, Cell to);
    /// Chords of these that can be nearest to a point within `radius` of the centre.
    [[nodiscard]] std::vector<int> near_chords(const std::vector<int>& among,
                                               const Eigen::Vector2d& centre, double radius) const;

    std::vector<OutlinePiece> pieces_;
    std::vector<Chord> chords_;
    Eigen::Vector2d origin_{0, 0};
    double cell_ = 0;
    int columns_ = 0, rows_ = 0;
    std::vector<std::vector<int>> near_; ///< per cell, row by row: chord numbers
    std::vector<int> all_;               ///< for points off the grid
};

} // namespace vrid
