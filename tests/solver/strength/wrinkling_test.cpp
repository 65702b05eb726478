#include "solver/strength/wrinkling.hpp"

#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

using namespace vrid;
using Eigen::Matrix3d;
using Eigen::Vector3d;

namespace {

// A face of two plies below the core, one above; nothing about them is alike.
struct Sandwich {
    std::vector<JudgedPly> plies = std::vector<JudgedPly>(4);
    PointLaminate point;

    Sandwich() {
        plies[2].core = true;
        plies[2].E3 = 0.1e9;
        plies[2].ply.G13 = 0.04e9;
        plies[2].ply.G23 = 0.02e9;
        point.core = 2;
        double z = 0;
        for (std::size_t i = 0; i < 4; ++i) {
            Lamina<double> one;
            const double stiff = 1e9 * (1 + static_cast<double>(i));
            one.Qbar << 4 * stiff, stiff, 0.2 * stiff, stiff, 2 * stiff, 0.1 * stiff, 0.2 * stiff,
                0.1 * stiff, 0.7 * stiff;
            one.thickness = 1e-3 * (i == 2 ? 8 : 1 + static_cast<double>(i));
            point.laminae.push_back(one);
            point.plies.push_back(&plies[i]);
            point.z.push_back(z);
            z += one.thickness;
        }
        point.z.push_back(z);
        Matrix3d D;
        D << 12, 3, 1, 3, 7, 0.5, 1, 0.5, 4;
        point.faces = {{0, 2, D}, {3, 4, 2 * D}};
    }

    [[nodiscard]] std::vector<PointFailure> failures(const PointLoad& load,
                                                     const PointResidual& residual = {}) const {
        std::vector<PointFailure> all;
        visit_wrinkling(point, load, residual,
                        [&](const PointFailure& one) { all.push_back(one); });
        return all;
    }
};

} // namespace

TEST_CASE("a face's force is its plies' stress by their thickness, free strains taken off") {
    const Sandwich board;
    const PointLaminate& point = board.point;
    PointResidual state;
    state.e << 1e-3, -2e-3, 5e-4;
    state.k << 0.3, -0.2, 0.4;
    state.free = std::vector<Vector3d>(4, Vector3d(2e-4, 1e-4, -3e-4));
    state.free[1] *= -2;
    state.stiffness = {1, 0.5, 1, 0.25};
    // by the two Gauss points of each ply, though the stress is straight within it
    for (const Face& face : point.faces) {
        Vector3d wanted = Vector3d::Zero();
        for (std::size_t i = face.from; i < face.to; ++i) {
            const double half = (point.z[i + 1] - point.z[i]) / 2;
            for (const double at : {-1 / std::sqrt(3.0), 1 / std::sqrt(3.0)}) {
                const double z = point.z[i] + half * (1 + at);
                wanted += half * state.stiffness[i] * point.laminae[i].Qbar *
                          (state.e + z * state.k - state.free[i]);
            }
        }
        CHECK((face_force(point, face, state) - wanted).norm() < 1e-9 * wanted.norm());
    }
}

TEST_CASE("wrinkling goes by the force across the waves: Hoff and Mautner (1945) in every "
          "direction") {
    const Sandwich board;
    const Face& face = board.point.faces[0];
    const JudgedPly& core = board.plies[2];
    const auto force = [&](double D, double G) { return 0.5 * std::cbrt(12 * D * 0.1e9 * G); };
    CHECK(wrinkling_use(face, core, {-1000, 0, 0}) == Approx(1000 / force(12, 0.04e9)));
    CHECK(wrinkling_use(face, core, {0, -1000, 0}) == Approx(1000 / force(7, 0.02e9)));
    CHECK(wrinkling_use(face, core, {-1000, 400, 0}) == Approx(1000 / force(12, 0.04e9)));
    CHECK(wrinkling_use(face, core, {1000, 400, 0}) < 0); // pulled both ways
    // shear presses at 135 degrees: D_n = (D11 + D22)/4 + D12/2 + D66 - D16 - D26, half of each G
    const double across = (12 + 7) / 4.0 + 1.5 + 4 - 1 - 0.5;
    CHECK(wrinkling_use(face, core, {0, 0, 1000}) == Approx(1000 / force(across, 0.03e9)));
    const double along = (12 + 7) / 4.0 + 1.5 + 4 + 1 + 0.5;
    CHECK(wrinkling_use(face, core, {0, 0, -1000}) == Approx(1000 / force(along, 0.03e9)));
}

TEST_CASE("each face's factor is that at which its force wrinkles it, told at its inner ply") {
    const Sandwich board;
    PointLoad load;
    load.k << 2, 0.1, 0.3; // squeezes the lower face about a strain that the load adds
    load.e << -0.03, 0.001, 0.002;
    const auto plain = board.failures(load);
    REQUIRE(plain.size() == 2);
    CHECK(plain[0].ply == 1);
    CHECK(plain[0].z == board.point.z[2]);
    CHECK(plain[1].ply == 3);
    CHECK(plain[1].z == board.point.z[3]);
    PointResidual before;
    before.e << -1e-4, 2e-4, -3e-4;
    before.free = std::vector<Vector3d>(4, Vector3d::Zero());
    const auto both = board.failures(load, before);
    REQUIRE(both.size() == 2);
    for (std::size_t f = 0; f < 2; ++f) {
        const Face& face = board.point.faces[f];
        const Vector3d N = face_force(board.point, face, {load.e, load.k, {}, {}});
        const Vector3d there = face_force(board.point, face, before);
        CHECK(plain[f].mode == FailureMode::wrinkling);
        CHECK(wrinkling_use(face, board.plies[2], plain[f].factor * N) == Approx(1));
        CHECK(wrinkling_use(face, board.plies[2], there + both[f].factor * N) == Approx(1));
        CHECK(both[f].factor < plain[f].factor);
    }
    const PointLoad pull{{0.03, 0.02, 0}, Vector3d::Zero(), {0, 0}};
    CHECK(board.failures(pull).empty());
    const Vector3d there = face_force(board.point, board.point.faces[0], before);
    before.e *= 1.5 / wrinkling_use(board.point.faces[0], board.plies[2], there);
    CHECK(board.failures(load, before)[0].factor == 0); // wrinkled before any load
    before.e *= 1e3;
    REQUIRE(board.failures(load, before).size() == 2);
    for (const PointFailure& one : board.failures(load, before)) {
        CHECK(one.factor == 0);
    }
    CHECK(board.failures({}).empty());
}
