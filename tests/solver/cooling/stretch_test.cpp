// Where bending both ways stretches the cooled plate: a homogeneous one by its closed form.
#include "solver/cooling/stretch.hpp"

#include <string>
#include <utility>

#include <catch2/catch.hpp>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "io/write/study_text.hpp"
#include "solver/study.hpp"

using namespace vrid;

namespace {

// Two sheets of 1 mm, E = 70 GPa, nu = 0.3, that shrink by 10e-6 a kelvin and not at all: free,
// they take the curvature 3/2 of the free strain over 2 mm in all directions (Timoshenko, Analysis
// of bi-metal thermostats, 1925, from memory; with equal sheets of any Poisson's ratio).
std::string plate(double kelvin, double width_mm, double times) {
    const auto sheet = [&](const char* name) {
        return "[[layer]]\nname = \"" + std::string(name) + "\"\nmaterial = \"" + name +
               "\"\nthickness_mm = " + std::to_string(times) + "\n";
    };
    const auto metal = [](const char* name, int alpha) {
        return "[material." + std::string(name) +
               "]\nE_GPa = 70\nnu = 0.3\ndensity_kgm3 = 2700\nalpha1_1e6K = " +
               std::to_string(alpha) + "\n";
    };
    return "format = 1\nname = \"plate\"\n[planform]\nrectangle_mm = [" +
           std::to_string(400 * times) + ", " + std::to_string(width_mm * times) +
           "]\n[cure]\nstress_free_C = " + std::to_string(20 + kelvin) + "\nroom_C = 20\n" +
           sheet("still") + sheet("shrinking") + metal("still", 0) + metal("shrinking", 10);
}

StudyResult released(const std::string& text) {
    StudyOptions options;
    options.cases = {"release"};
    return run_study(read_board_text({text, "plate.toml", ""}, load_material_library()), options);
}

StudyResult cooled_by(double kelvin, double width_mm) {
    return released(plate(kelvin, width_mm, 1));
}

// (1 - nu^2) (b^2 k / h)^2 / 60
double eta(double kelvin, double width) {
    const double k = 1.5 * 10e-6 * kelvin / 2e-3;
    const double share = width * width * k / 2e-3;
    return (1 - 0.3 * 0.3) * share * share / 60;
}

} // namespace

TEST_CASE("a homogeneous plate bent both ways overstates its curvatures by (1 - nu^2) (b^2 k / "
          "h)^2 / 60") {
    for (const double kelvin : {20.0, 40.0}) {
        const StudyResult study = cooled_by(kelvin, 150);
        const StretchShare& stretch = study.cases.front().cooled->stretch;
        CHECK(stretch.across == Approx(eta(kelvin, 0.15)).epsilon(1e-4));
        CHECK(stretch.along == Approx(eta(kelvin, 0.15)).epsilon(1e-4));
    }
}

TEST_CASE("bending both ways is not mentioned below 0.05, warned of above, and void above 1") {
    REQUIRE(eta(20, 0.1) < 0.05);
    CHECK(stretch_warnings(cooled_by(20, 100)).empty());
    REQUIRE(eta(40, 0.15) > 0.05);
    REQUIRE(eta(40, 0.15) < 1);
    const std::vector<std::string> some = stretch_warnings(cooled_by(40, 150));
    REQUIRE(some.size() == 2);
    CHECK(some[0].find("hollow is overstated by about 17 %") != std::string::npos);
    CHECK(some[1].find("camber is overstated by about 17 %") != std::string::npos);
    REQUIRE(eta(160, 0.15) > 1);
    const std::vector<std::string> none = stretch_warnings(cooled_by(160, 150));
    REQUIRE(none.size() == 2);
    CHECK(none[0].find("not valid") != std::string::npos);
    CHECK(none[1].find("not valid") != std::string::npos);
}

TEST_CASE("how far bending both ways stretches a board does not depend on its size") {
    const auto arched = [](double times) {
        std::string heights;
        for (const auto& [x, z] : {std::pair(-200, 0), {-90, 3}, {0, 7}, {60, 3}, {200, 0}}) {
            heights += (heights.empty() ? "[" : ", [") + std::to_string(x * times) + ", " +
                       std::to_string(z * times) + "]";
        }
        return released(plate(20, 150, times) + "[rest_shape]\nz_mm = [" + heights + "]\n")
            .cases.front()
            .cooled->stretch;
    };
    const StretchShare one = arched(1);
    const StretchShare four = arched(4);
    CHECK(four.across == Approx(one.across).epsilon(0.01)); // the mesh is another one
    CHECK(four.across_station == Approx(4 * one.across_station));
    CHECK(four.along == Approx(one.along).epsilon(0.01));
}
