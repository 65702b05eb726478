#pragma once

#include <functional>
#include <string>
#include <vector>

namespace vrid::convergence {

/// A number computed at several mesh sizes and degrees.
struct Problem {
    std::string title, what;
    std::vector<double> size; ///< quads a side, or the mesh size [mm]; from coarse to fine
    bool by_quads = true;     ///< what `size` is
    std::vector<int> degrees;
    double exact = 0;                       ///< or the reference
    std::string reference;                  ///< where `exact` comes from
    std::vector<std::vector<double>> error; ///< by degree and size, relative
};

// One function a family; each solves its table.
Problem smooth_plate();
Problem distorted_plate();
Problem skew_corner();
Problem board(const std::string& case_name);

/// Observed order between the two finest meshes whose errors are above rounding; nan without.
double order_in_size(const Problem& problem, std::size_t degree);
/// Observed order between the two highest degrees above rounding on one mesh; nan without.
double order_in_degree(const Problem& problem, std::size_t size);

std::string page(const std::vector<Problem>& problems);
std::string picture(const std::vector<Problem>& problems);

} // namespace vrid::convergence
