#include "mesh/board/profile.hpp"

namespace vrid {

std::vector<double> smooth_slopes(const Profile& profile) {
    return smooth_slopes(profile.x, profile.value);
}

double value_at(const Profile& profile, const std::vector<double>& slopes, double x) {
    return value_at(profile, profile.value, slopes, x);
}

} // namespace vrid
