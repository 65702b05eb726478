#pragma once

#include <functional>
#include <string>
#include <vector>

namespace vrid::published {

/// A number as vrid computes it, with the half width of its discretisation bar (0: closed form).
struct Ours {
    double value = 0, error = 0;
};

/// One published number and how to compute it. The unit is part of the name; most are
/// dimensionless.
struct Check {
    std::string name;
    std::string source;
    double published = 0;
    double rounding = 0; ///< half a unit of the last digit printed
    std::function<Ours()> ours;
    /// The source solves another problem (three-dimensional elasticity, thin plates): the
    /// difference belongs to the model and is shown with its size, neither passed nor failed.
    bool other_model = false;
};

/// A number at a degree, with the bar that the program itself prints (solver/response/error_bar).
Ours at_two_degrees(int degree, const std::function<double(int degree)>& number);

// One file a family; table.cpp lists them.
std::vector<Check> thin_plates();
std::vector<Check> thick_plates();
std::vector<Check> skew_plates();
std::vector<Check> circular_plates();
std::vector<Check> vibration();
std::vector<Check> torsion();
std::vector<Check> laminate_plates();
std::vector<Check> elasticity();
std::vector<Check> nafems();
std::vector<Check> sections();

struct Family {
    std::string title;
    std::vector<Check> checks;
};

/// All families, in the order they are printed.
std::vector<Family> catalogue();

} // namespace vrid::published
