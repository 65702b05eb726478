#include "mesh/board/profile.hpp"

#include <catch2/catch.hpp>

using vrid::Profile;

TEST_CASE(
    "a smooth profile passes its stations, never overshoots and is constant beyond its ends") {
    const Profile profile{vrid::Interpolation::smooth,
                          {-0.78, -0.58, -0.27, 0.0, 0.27, 0.58},
                          {2e-3, 2.6e-3, 6.6e-3, 7.4e-3, 6.6e-3, 2.6e-3}};
    const auto slopes = vrid::smooth_slopes(profile);
    for (std::size_t i = 0; i < profile.x.size(); ++i) {
        CHECK(vrid::value_at(profile, slopes, profile.x[i]) ==
              Approx(profile.value[i]).epsilon(1e-14));
    }
    for (std::size_t i = 0; i + 1 < profile.x.size(); ++i) {
        const double low = std::min(profile.value[i], profile.value[i + 1]);
        const double high = std::max(profile.value[i], profile.value[i + 1]);
        for (int k = 1; k < 20; ++k) {
            const double x = profile.x[i] + k / 20.0 * (profile.x[i + 1] - profile.x[i]);
            const double t = vrid::value_at(profile, slopes, x);
            CHECK(t >= low - 1e-15);
            CHECK(t <= high + 1e-15);
        }
    }
    CHECK(slopes[3] == 0.0); // secants change sign at the crest
    CHECK(vrid::value_at(profile, slopes, -2.0) == 2e-3);
    CHECK(vrid::value_at(profile, slopes, 2.0) == 2.6e-3);
}
