#pragma once

#include <functional>
#include <string>
#include <vector>

namespace vrid::published {

/// A number as vrid computes it, with the half width of its discretisation bar (0: closed form).
struct Ours {
    double value = 0, error = 0;
};

/// What a check's number is measured against.
enum class Kind {
    judged,      ///< the same problem: ours must lie within its bar and the rounding
    other_model, ///< another problem (three-dimensional elasticity, a thin plate, a solid bar): the
                 ///< difference belongs to the model and is shown with its size, not judged
    old_print    ///< the same problem, a printed value known to be coarse and recomputed beside it
};

/// One published number and how to compute it. The unit is part of the name; most are
/// dimensionless.
struct Check {
    std::string name;
    std::string source;
    double published = 0;
    double rounding = 0; ///< half a unit of the last digit printed
    std::function<Ours()> ours;
    Kind kind = Kind::judged;
};

/// A number at a degree, with the bar that the program itself prints (solver/response/error_bar).
Ours at_two_degrees(int degree, const std::function<double(int degree)>& number);
/// For moments at a point: even and odd degrees alternate there and neighbours can agree by chance,
/// so that the change over two degrees counts too.
Ours at_three_degrees(int degree, const std::function<double(int degree)>& number);

/// Names of the independent programs behind recomputed references (folder recompute).
inline const std::string mindlin_ritz =
    "displacement Ritz on rectangles graded into the layer at the side, all digits shown converged "
    "(recompute/mindlin_rectangle.py)";
inline const std::string kirchhoff_ritz =
    "Ritz with twice differentiable functions, all digits shown converged "
    "(recompute/kirchhoff_rectangle.py)";

// One file a family; table.cpp lists them.
std::vector<Check> thin_plates();
std::vector<Check> thick_plates();
std::vector<Check> skew_plates();
std::vector<Check> circular_plates();
std::vector<Check> vibration();
std::vector<Check> torsion();
std::vector<Check> laminate_plates();
std::vector<Check> elasticity();
std::vector<Check> ply_stress();
std::vector<Check> beams();
std::vector<Check> nafems();
std::vector<Check> sections();
std::vector<Check> press();
std::vector<Check> curved();
std::vector<Check> strength();

struct Family {
    std::string title;
    std::vector<Check> checks;
};

/// All families, in the order they are printed.
std::vector<Family> catalogue();

} // namespace vrid::published
