#include "solver/design/session.hpp"

#include <algorithm>
#include <stdexcept>

#include <catch2/catch.hpp>

#include "mesh/mesh_lines.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;
using Kind = NumberId::Kind;

namespace {

NumberId twist(const std::string& name) {
    NumberId one = request(Kind::bench_case);
    one.bench_case = name;
    return one;
}

Settings coarse() {
    Settings settings;
    settings.degree = 2;
    return settings;
}

double value(Session& session, const NumberId& number) {
    return session.numbers({number}, {false, false, {}}).numbers.front().quantity.value;
}

SetValues scale(const Board& board, double factor) {
    return {ids_of(board, {"core.thickness_scale"}), Eigen::VectorXd::Constant(1, factor)};
}

struct Stop : std::runtime_error {
    Stop() : std::runtime_error("stop") {}
};

} // namespace

TEST_CASE("a session keeps its mesh while values change, and comes back when they do") {
    Session session(example("nh-157-querwind"), coarse());
    const double before = value(session, twist("nose-twist"));
    const SharedPrepared mesh = session.prepared();
    session.set(scale(session.board(), 1.1));
    const double thicker = value(session, twist("nose-twist"));
    CHECK(thicker > 1.1 * before);
    CHECK(session.prepared() == mesh);
    CHECK(session.study().cases[3].name == "nose-twist");
    CHECK(session.study().cases[3].numbers[0].quantity.value == Approx(thicker).epsilon(1e-9));
    session.set({});
    CHECK(value(session, twist("nose-twist")) == before);
    Session own = session.afresh();
    CHECK(own.prepared() != mesh);
}

TEST_CASE("slopes at values that are set are by the values of the board as it was") {
    const Board board = example("coupon-triax");
    const NumberId EI = request(Kind::EI, 0);
    const std::vector<std::string> paths{
        "layer." + board.layers.front().name + ".areal_weight_scale",
        "fabric." + board.layers.front().fabric + ".fibre_volume_fraction",
        "material.e-glass.E_GPa"};
    const std::vector<DesignId> ids = ids_of(board, paths);
    Session session(board);
    const auto at = [&](const Eigen::VectorXd& values) {
        session.set({ids, values});
        return value(session, EI);
    };
    const Eigen::Vector3d values(1.2, 0.45, 70e9);
    session.set({ids, values});
    const Eigen::MatrixXd slopes = slopes_by(session.numbers({EI}), ids);
    for (Eigen::Index i = 0; i < 3; ++i) {
        Eigen::VectorXd up = values;
        Eigen::VectorXd down = values;
        up(i) *= 1 + 1e-4;
        down(i) *= 1 - 1e-4;
        const double by_difference = (at(up) - at(down)) / (up(i) - down(i));
        CAPTURE(paths[static_cast<std::size_t>(i)]);
        CHECK(slopes(0, i) == Approx(by_difference).epsilon(1e-6));
    }
}

TEST_CASE("a mesh that was prepared for something else is refused") {
    const Board board = example("nh-157-querwind");
    Session session(board, coarse(), {"nose-flex"});
    session.prepared();
    CHECK_THROWS_AS(session.numbers({twist("stance-twist")}), std::logic_error); // has its lines
    CHECK_THROWS_AS(session.numbers({request(Kind::mode, 0)}), std::logic_error);
    CHECK_NOTHROW(session.numbers({twist("nose-flex"), request(Kind::mass)}));
    CHECK_THROWS_AS(session.use({}), std::logic_error); // another degree
    Board longer = board;
    longer.planform.running_length *= 1.01;
    Session other_lines = session.on_mesh(longer);
    other_lines.study();
    CHECK(other_lines.prepared()->lines == mesh_lines(longer)); // a mesh of its own
    Board thicker = board;
    thicker.core->thickness.value[2] *= 1.1;
    CHECK_NOTHROW(session.on_mesh(thicker).study());
    StudyOptions other{coarse(), {"nose-flex"}, false, session.prepared()};
    CHECK_NOTHROW(run_study(board, other));
    other.degree = 3;
    CHECK_THROWS_AS(run_study(board, other), std::logic_error);
    other.degree = 2;
    other.max_size = 0.05;
    CHECK_THROWS_AS(run_study(board, other), std::logic_error);
    EdgeOptions edge{coarse()};
    edge.prepared = session.prepared(); // has no lines beside the feet
    CHECK_THROWS_AS(run_edge(board, {}, edge), std::logic_error);
}

TEST_CASE("what progress throws ends a study, an edge and numbers alike") {
    Settings settings = coarse();
    settings.progress = [](const std::string& phase, double) {
        if (phase != "mesh") {
            throw Stop();
        }
    };
    Session session(example("nh-157-querwind"), settings);
    EdgeCondition condition;
    condition.tilt = 0.8;
    condition.force = 800;
    condition.hardness = 5e8;
    CHECK_THROWS_AS(session.study(), Stop);
    CHECK_THROWS_AS(session.edge({condition}), Stop);
    CHECK_THROWS_AS(session.numbers({twist("nose-twist")}), Stop);
}

TEST_CASE("the share done of a study rises through its factors and modes to the end") {
    std::vector<double> shares;
    std::vector<std::string> phases;
    Settings settings = coarse();
    settings.progress = [&](const std::string& phase, double share) {
        shares.push_back(share);
        phases.push_back(phase);
    };
    Session session(example("nh-157-querwind"), settings);
    session.study();
    CHECK(std::ranges::is_sorted(shares));
    CHECK(shares.back() < 1);
    // at each degree: the first factor, and one that shares what no support touches
    CHECK(std::ranges::count(phases, "factor") >= 4);
    CHECK(std::ranges::count_if(shares, [](double share) { return share > 0.7; }) >= 2);
}

TEST_CASE("with an error bar wanted the first study refines and the rest stay on its mesh") {
    Settings settings;
    settings.degree = 2;
    settings.rel_error = 1e-3;
    Session session(example("coupon-sandwich"), settings);
    const StudyResult first = session.study();
    REQUIRE(first.prepared->degree > 2);
    CHECK(session.study().prepared == first.prepared);
}
