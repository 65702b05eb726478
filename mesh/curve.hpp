#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/board/planform.hpp"

namespace vrid {

/// A stretch of an outline piece, moved to its left (into the board) by `offset`.
struct CurveSpan {
    OutlinePiece piece;
    double from = 0, to = 1; ///< parameters in the piece, from < to
    double offset = 0;       ///< [m]
    bool corner = false;     ///< the curve turns where this span begins
    bool fan = false;        ///< arc round a corner of the outline: s is its plain length
};

/// A closed curve: the outline, or a parallel of it.
///
/// Its parameter s rises along the *outline*, faster where it turns, so that even steps of s are
/// shorter there, and the same share of s on two near parallels is found on one normal. s = 0 is
/// the start of the first span; s is taken modulo the length.
class Loop {
  public:
    explicit Loop(std::vector<CurveSpan> spans);

    [[nodiscard]] Eigen::Vector2d point(double s) const;
    [[nodiscard]] Eigen::Vector2d direction(double s) const; ///< of unit length, counter-clockwise
    [[nodiscard]] double length() const { return samples_.back().s; } ///< of the parameter

    /// Points of a polyline within 0.02 mm; the last repeats the first.
    struct Sample {
        double s;
        Eigen::Vector2d point;
        int span;
        double t;
        double slope; ///< dt/ds
    };
    [[nodiscard]] const std::vector<Sample>& samples() const { return samples_; }
    [[nodiscard]] std::vector<double> corners() const; ///< s at which the curve turns

  private:
    struct Spot {
        const CurveSpan* span;
        double t;
    };
    [[nodiscard]] Spot spot(double s) const;

    std::vector<CurveSpan> spans_;
    std::vector<Sample> samples_;
};

/// A point of an offset span at parameter t of its piece.
Eigen::Vector2d point_on(const CurveSpan& span, double t);

} // namespace vrid
