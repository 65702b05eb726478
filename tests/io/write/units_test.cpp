#include "io/write/units.hpp"

#include <numbers>

#include <catch2/catch.hpp>

using vrid::file_unit;
using vrid::from_si;
using vrid::to_si;

TEST_CASE("the ending of a key tells its unit, and round values stay round in SI") {
    CHECK(to_si("waist_width_mm", 252) == 0.252);
    CHECK(to_si("E1_GPa", 72.4) == 72.4e9);
    CHECK(to_si("Xt_MPa", 1140) == 1.14e9);
    CHECK(to_si("areal_weight_gsm", 740) == 0.74);
    CHECK(to_si("insert_mass_g", 8.5) == 0.0085);
    CHECK(to_si("alpha1_1e6K", 5.4) == 5.4e-6);
    CHECK(to_si("angle_deg", 180) == std::numbers::pi);
    CHECK(to_si("hardness_Npmm3", 0.5) == 0.5e9);
    CHECK(to_si("nu12", 0.3) == 0.3);
    CHECK(to_si("fibre_volume_fraction", 0.48) == 0.48);
    CHECK(from_si("thickness_mm", 0.0072) == Approx(7.2));
    CHECK(from_si("angle_deg", std::numbers::pi / 2) == Approx(90));
    CHECK(file_unit("density_kgm3").name == "kg/m3");
    CHECK(file_unit("inserts_per_foot").name.empty());
}
