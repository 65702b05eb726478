#include "mesh/board/board_stations.hpp"

#include <algorithm>

#include "mesh/board/same_place.hpp"

namespace vrid {

std::vector<double> board_stations(const Planform& planform, std::vector<double> wanted) {
    const auto [tail, nose] = x_extent(planform);
    std::ranges::sort(wanted);
    std::vector<double> stations{tail};
    for (const double x : wanted) {
        if (x - stations.back() >= same_place && nose - x >= same_place) {
            stations.push_back(x);
        }
    }
    stations.push_back(nose);
    return stations;
}

double beside(const Planform& planform, double x) {
    // past the rounding of a station, and so near that what changes steadily shows the same digits
    constexpr double step = same_place / 10;
    const auto [tail, nose] = x_extent(planform);
    if (x < tail - same_place || x > nose + same_place) {
        return x;
    }
    x = x > step ? x - step : x < -step ? x + step : x;
    return std::clamp(x, tail + step, nose - step);
}

} // namespace vrid
