// The stress of a cooled board before any load.
#include "solver/strength_residual.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "mesh/board/error.hpp"
#include "solver/strength_mesh.hpp"
#include "tests/solver/glass_strip.hpp"

using namespace vrid;

namespace {

StudyResult cooled_study(const Board& board) {
    StudyOptions options;
    options.threads = 1;
    options.degree = 2;
    options.cases = {"release"};
    options.keep_models = true;
    return run_study(board, options);
}

StrengthResult strength_of(const Board& board, const std::string& cooled) {
    StrengthOptions options;
    options.threads = 1;
    options.degree = 2;
    options.cases = {"nose-flex"};
    options.cooled = cooled;
    return run_strength(board, options);
}

Board cured(double stress_free, double angle) {
    Board board = vrid::tests::glass_strip(angle);
    board.cure = Cure{};
    board.cure->stress_free = stress_free;
    board.cure->room = 20;
    return board;
}

} // namespace

TEST_CASE("far from the edges a symmetric laminate has the residual stress of classical laminate "
          "theory: e = A^-1 NT, no force, no curvature") {
    const Board board = cured(95, 0); // faces alike
    const StudyResult study = cooled_study(board);
    const Layup<double> layup = make_layup<double>(board);
    const JudgedLayup judged = judged_layup(layup);
    const WeakestSearch search(layup, judged, study.mesh, Criterion::tsai_hill);
    SectionCache sections(layup);
    DiscMaker maker(study.mesh, sections);
    const auto disc = maker.at({0.01, 0.003});
    REQUIRE(disc);
    const StackKey& key = sections.stacks()[static_cast<std::size_t>(disc->stack)];
    const PointLaminate point = point_laminate(layup, judged, key, disc->centre);
    const PointResidual residual = CooledStress(board, study, "release", 1).at(key, *disc, point);
    REQUIRE(residual.free.size() == 3);
    const Section<double>& s = point.section;
    const Eigen::Vector3d e = s.A.inverse() * (s.N0 + 20 * s.NT);
    const double scale = e.cwiseAbs().maxCoeff();
    REQUIRE(scale > 1e-5);
    // the plate's reference plane is its running surface: strain there, curvature 0
    CHECK((residual.e - e).cwiseAbs().maxCoeff() < 2e-3 * scale);
    CHECK(residual.k.cwiseAbs().maxCoeff() * s.thickness < 2e-3 * scale);
    Eigen::Vector3d N = Eigen::Vector3d::Zero();
    double most = 0;
    for (std::size_t i = 0; i < residual.free.size(); ++i) {
        const Eigen::Vector3d part =
            point.laminae[i].thickness * point.laminae[i].Qbar * (residual.e - residual.free[i]);
        N += part;
        most = std::max(most, part.cwiseAbs().maxCoeff());
    }
    CHECK(N.cwiseAbs().maxCoeff() < 5e-3 * most);
}

TEST_CASE("a board that was cooled by nothing bears what it bears without residual stress; one "
          "cooled by 100 K another load") {
    const double none = strength_of(cured(20, 0.6), "").cases.front().first->load.value;
    const StrengthResult zero = strength_of(cured(20, 0.6), "release");
    REQUIRE(zero.cases.size() == 1); // the release itself is no load
    CHECK(zero.residual);
    CHECK(zero.cases.front().first->load.value == Approx(none).epsilon(1e-6));
    const double hot = strength_of(cured(120, 0.6), "release").cases.front().first->load.value;
    CHECK(std::abs(hot / none - 1) > 0.02);
    CHECK(strength_of(cured(120, 0.6), "").cases.front().first->load.value ==
          Approx(none).epsilon(1e-9));
    CHECK_THROWS_AS(strength_of(vrid::tests::glass_strip(0.6), "cold"), InputError);
}
