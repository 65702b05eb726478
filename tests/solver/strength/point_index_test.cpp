#include "solver/strength/point_index.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "solver/strength/wrinkling.hpp"
#include "tests/solver/strength/textbook_plies.hpp"

using namespace vrid;
using Eigen::Vector3d;

namespace {

struct JudgedSandwich {
    std::vector<JudgedPly> plies = std::vector<JudgedPly>(3);
    PointLaminate point;

    explicit JudgedSandwich(const PlyStrength& strength) {
        std::vector<Lamina<double>> laminae;
        for (std::size_t i = 0; i < 3; ++i) {
            plies[i].ply = tests::textbook_glass();
            plies[i].angle = 0.3 * static_cast<double>(i);
            plies[i].core = i == 1;
            plies[i].E3 = 1e9;
            plies[i].parts = {{"glass", MaterialFamily::fibre, strength}};
            laminae.push_back(lamina(plies[i].ply, plies[i].angle, i == 1 ? 8e-3 : 1e-3));
        }
        point = point_laminate(laminae, {&plies[0], &plies[1], &plies[2]});
    }
};

PlyStrength all_strengths() {
    PlyStrength strength = tests::textbook_glass_strength();
    strength.S13 = 60e6;
    strength.S23 = 50e6;
    return strength;
}

} // namespace

TEST_CASE("the way a part gives is told by its largest stress and what it is made of") {
    const PlyStrength strength = tests::textbook_glass_strength(); // 1062, 610, 31, 118, 72 MPa
    const JudgedPart fibre{"glass", MaterialFamily::fibre, strength};
    const JudgedPart wood{"ash", MaterialFamily::wood, strength};
    PlyStrength metal = strength;
    metal.isotropic = true;
    const JudgedPart steel{"steel", MaterialFamily::metal, metal};
    using enum FailureMode;
    const auto row = [&](const PlyStress& stress, FailureMode of_fibre, FailureMode of_wood) {
        CHECK(in_plane_mode(fibre, stress) == of_fibre);
        CHECK(in_plane_mode(wood, stress) == of_wood);
        CHECK(in_plane_mode(steel, stress) == yield);
    };
    row({900e6, 20e6, 0}, fibre_tension, grain_tension);
    row({-600e6, 20e6, 0}, fibre_compression, grain_compression);
    row({-600e6, 31e6, 0}, crack_across, crack_across);
    row({100e6, -110e6, 60e6}, crush_across, crush_across);
    row({100e6, -50e6, -60e6}, in_plane_shear, in_plane_shear);
}

TEST_CASE("an index of 1 is where the factor of the same way says the ply gives") {
    const JudgedSandwich board(all_strengths());
    const PointLoad load{{2e-3, -1e-3, 5e-4}, {0.2, -0.1, 0.3}, {200, 3000}};
    for (const Criterion criterion : {Criterion::tsai_hill, Criterion::max_stress}) {
        // of each ply and kind of failure the least factor; wrinkling apart
        const auto least_factor = [&](std::size_t ply, bool shear) {
            double least = HUGE_VAL;
            visit_failures(board.point, load, {}, criterion, [&](const PointFailure& one) {
                const bool through =
                    one.mode == FailureMode::core_shear || one.mode == FailureMode::delamination;
                if (one.ply == ply && through == shear && one.mode != FailureMode::wrinkling) {
                    least = std::min(least, one.factor);
                }
            });
            return least;
        };
        const auto largest_index = [&](std::size_t ply, bool shear) {
            double largest = 0;
            visit_indices(board.point, load, {}, criterion, [&](const PointIndex& one) {
                const bool through =
                    one.mode == FailureMode::core_shear || one.mode == FailureMode::delamination;
                CHECK((one.mode != FailureMode::core_shear || one.ply == 1));
                CHECK((one.mode != FailureMode::delamination || one.ply != 1));
                CHECK(one.z >= board.point.z[one.ply]);
                CHECK(one.z <= board.point.z[one.ply + 1]);
                if (one.ply == ply && through == shear && one.mode != FailureMode::wrinkling) {
                    largest = std::max(largest, one.index);
                }
            });
            return largest;
        };
        const double power = criterion == Criterion::tsai_hill ? 2 : 1;
        for (std::size_t ply = 0; ply < 3; ++ply) {
            for (const bool shear : {false, true}) {
                CAPTURE(ply, shear, power);
                CHECK(std::pow(least_factor(ply, shear), -power) ==
                      Approx(largest_index(ply, shear)));
            }
        }
    }
}

TEST_CASE("wrinkling counts by its force, squared by Tsai and Hill, residual force with it") {
    const JudgedSandwich board(all_strengths());
    PointLoad load;
    load.e << -2e-3, 1e-4, 3e-4;
    PointResidual before;
    before.e << -1e-3, 2e-4, 0;
    before.free = std::vector<Vector3d>(3, Vector3d(1e-4, 0, 0));
    for (const bool residual : {false, true}) {
        std::vector<double> found, power;
        for (const Criterion criterion : {Criterion::max_stress, Criterion::tsai_hill}) {
            visit_indices(board.point, load, residual ? before : PointResidual{}, criterion,
                          [&](const PointIndex& one) {
                              if (one.mode == FailureMode::wrinkling) {
                                  found.push_back(one.index);
                                  CHECK(one.ply == (one.z == board.point.z[1] ? 0U : 2U));
                              }
                          });
        }
        REQUIRE(found.size() == 4);
        for (std::size_t f = 0; f < 2; ++f) {
            const Face& face = board.point.faces[f];
            Vector3d N = face_force(board.point, face, {load.e, load.k, {}, {}});
            N += residual ? face_force(board.point, face, before) : Vector3d(Vector3d::Zero());
            const double use = wrinkling_use(face, board.plies[1], N);
            CHECK(found[f] == Approx(use));
            CHECK(found[2 + f] == Approx(use * use));
        }
    }
    load.e *= -1; // a pulled face does not count, by its square neither
    visit_indices(board.point, load, {}, Criterion::tsai_hill, [](const PointIndex& one) {
        CHECK((one.mode != FailureMode::wrinkling || one.index == 0));
    });
}

TEST_CASE("the index of a point is its largest, and what has no strength has none") {
    const JudgedSandwich board(all_strengths());
    const PointLoad load{{2e-3, -1e-3, 5e-4}, {0.2, -0.1, 0.3}, {200, 3000}};
    std::vector<double> all;
    visit_indices(board.point, load, {}, Criterion::tsai_hill,
                  [&](const PointIndex& one) { all.push_back(one.index); });
    CHECK(failure_index(board.point, load, {}, Criterion::tsai_hill) ==
          *std::max_element(all.begin(), all.end()));
    JudgedSandwich bare(all_strengths());
    for (JudgedPly& ply : bare.plies) {
        ply.parts[0].strength.reset();
    }
    visit_indices(bare.point, load, {}, Criterion::tsai_hill,
                  [](const PointIndex& one) { CHECK(one.mode == FailureMode::wrinkling); });
}
