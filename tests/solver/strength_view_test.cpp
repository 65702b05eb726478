// Stress all over a board: closed forms of a beam, the plate's own forces, the table's place.
#include "solver/strength_view.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/response/fields.hpp"
#include "solver/strength/point_index.hpp"
#include "tests/solver/glass_strip.hpp"

using namespace vrid;

namespace {

constexpr double strip_length = 0.4, strip_width = 0.03, thickness = 5e-3;

// One sheet without Poisson's ratio: a beam.
Board beam() {
    Board board;
    board.planform = rectangle_planform(strip_length, strip_width);
    Material material;
    material.name = "sheet";
    material.E1 = material.E2 = 30e9;
    material.nu12 = 0;
    material.G12 = material.G13 = material.G23 = 3e9;
    material.density = 1500;
    material.strengths = {};
    material.strengths.Xt = material.strengths.Xc = 200e6;
    material.strengths.Yt = material.strengths.Yc = 200e6;
    material.strengths.S12 = material.strengths.S13 = material.strengths.S23 = 90e6;
    board.materials["sheet"] = material;
    Layer layer;
    layer.name = "sheet";
    layer.material = "sheet";
    layer.thickness = thickness;
    board.layers = {layer};
    return board;
}

StrengthResult view_strength(const Board& board, const std::string& bench, double at = 0) {
    StrengthOptions options;
    options.threads = 1;
    options.cases = {bench};
    if (at > 0) {
        options.at = at;
    }
    return run_strength(board, options);
}

double simpson(double a, double middle, double b, double h) {
    return h / 6 * (a + 4 * middle + b);
}

} // namespace

TEST_CASE("a beam bent in three points has 6 M / b h^2 in its surfaces and 1.5 Q / b h between") {
    const Board board = beam();
    constexpr double F = 50;
    const StrengthResult result = view_strength(board, "centre-flex", F);
    StrengthFields fields(board, result, 4);
    REQUIRE(fields.plot().plies() == std::vector<std::string>{"sheet"});
    const StressFields found = fields.fields(0);
    int seen = 0;
    for (Eigen::Index c = 0; c < fields.plot().position().cols(); ++c) {
        const double x = fields.plot().position()(0, c);
        if (std::abs(x) < 0.02 || std::abs(x) > 0.18) {
            continue; // a disc over the load or a support sees both sides of it
        }
        ++seen;
        const double M = F / 2 * (strip_length / 2 - std::abs(x));
        const double surface = 6 * M / (strip_width * thickness * thickness);
        for (const StressValues* values : {&found.raw, &found.averaged}) {
            const Eigen::VectorXd stress = values->stress.front().col(c);
            CAPTURE(x, values == &found.raw);
            CHECK(std::abs(stress(0)) == Approx(surface).epsilon(0.01)); // bottom
            CHECK(stress(1) == Approx(-stress(0)).epsilon(0.01));        // top
            CHECK(std::abs(stress(6)) ==
                  Approx(0.75 * F / (strip_width * thickness)).epsilon(0.01));
            CHECK(stress(6) * stress(0) * x > 0); // Q = dM/dx
            CHECK(values->index.front()(c) ==
                  Approx(std::pow(surface / 200e6, 2)).epsilon(0.02).margin(2e-4));
        }
        const double load = F * 200e6 / surface;
        if (surface > 30e6) { // nearer to the supports it is shear
            CHECK(found.lowest(c) == Approx(load).epsilon(0.01));
            CHECK(found.lowest_layer(c) == 1);
        }
    }
    CHECK(seen > 50);
}

TEST_CASE("plotted stress adds up to the forces that the plate's fields have at the same points") {
    const Board board = tests::glass_strip(0.6);
    const StrengthResult result = view_strength(board, "nose-flex", 100);
    StrengthFields fields(board, result, 4);
    const StressFields found = fields.fields(0);
    const SignedLoad load = plotted_load(result.cases.front(), result.study.cases.front());
    CHECK(load.load == 100);
    const MotionSample sample = sample_motion(board, result.study, result.study.cases.front(), 4);
    const std::vector<double> z{0, 0.8e-3, 6.8e-3, 7.6e-3};
    const std::vector<double> angle{0, 0, 0.6};
    const auto& plies = fields.plot().plies();
    double largest = 0;
    for (Eigen::Index c = 0; c < sample.position.cols(); ++c) {
        Eigen::Matrix<double, 6, 1> sum = Eigen::Matrix<double, 6, 1>::Zero();
        for (std::size_t i = 0; i < 3; ++i) {
            const std::string name = i == 0 ? "lower" : i == 1 ? "core" : "upper";
            const auto which = static_cast<std::size_t>(
                std::find(plies.begin(), plies.end(), name) - plies.begin());
            REQUIRE(which < plies.size());
            const Eigen::VectorXd s = found.raw.stress[which].col(c);
            const double t = z[i + 1] - z[i];
            const double C = std::cos(angle[i]);
            const double S = std::sin(angle[i]);
            Eigen::Matrix3d back;
            back << C * C, S * S, -2 * C * S, S * S, C * C, 2 * C * S, C * S, -C * S, C * C - S * S;
            const Eigen::Vector3d bottom = back * Eigen::Vector3d(s(0), s(2), s(4));
            const Eigen::Vector3d top = back * Eigen::Vector3d(s(1), s(3), s(5));
            for (int k = 0; k < 3; ++k) {
                const double middle = (bottom(k) + top(k)) / 2;
                sum(k) += simpson(bottom(k), middle, top(k), t);
                sum(3 + k) +=
                    simpson(z[i] * bottom(k), (z[i] + t / 2) * middle, z[i + 1] * top(k), t);
            }
        }
        const Eigen::Matrix<double, 6, 1> plate = load.factor * sample.resultant.col(c).head<6>();
        largest = std::max(largest, plate.norm());
        CHECK((sum - plate).norm() < 1e-6 * (1 + plate.norm()));
    }
    CHECK(largest > 100);
}

TEST_CASE("plotted at the failing load the index is 1 at the table's place and nowhere larger; the "
          "map's least load and the stress through the thickness are those of that place") {
    const Board board = tests::glass_strip(0.6);
    const StrengthResult result = view_strength(board, "nose-flex");
    const FailurePlace& first = *result.cases.front().first;
    StrengthFields fields(board, result, 4);
    const StressFields found = fields.fields(0);
    const auto layer = static_cast<std::size_t>(
        std::find(fields.plot().layers().begin(), fields.plot().layers().end(), first.layer) -
        fields.plot().layers().begin());
    double largest = 0;
    double there = 0;
    double near = HUGE_VAL;
    for (Eigen::Index c = 0; c < fields.plot().position().cols(); ++c) {
        for (const Eigen::VectorXd& index : found.averaged.index) {
            largest = std::isnan(index(c)) ? largest : std::max(largest, index(c));
        }
        const double away = (fields.plot().position().col(c) - first.place.at).norm();
        if (away < near && !std::isnan(found.averaged.index[layer](c))) {
            near = away;
            there = found.averaged.index[layer](c);
        }
    }
    CHECK(largest < 1.01); // the walk downhill ends in steps of a quarter of a millimetre
    CHECK(largest > 0.9);
    CHECK(there > 0.7); // the nearest plotting point
    const StrengthView view = strength_view(board, result);
    REQUIRE(view.cases.size() == 1);
    CHECK(view.cases[0].load.minCoeff<Eigen::PropagateNumbers>() ==
          Approx(first.load.value).epsilon(1e-9));
    double index = 0;
    for (const PlyProfile& ply : view.cases[0].through) {
        for (const PartProfile& part : ply.parts) {
            REQUIRE(part.strength);
            for (const int end : {0, 1}) {
                index = std::max(index, failure_index(*part.strength, Criterion::tsai_hill,
                                                      PlyStress(part.stress.in_plane.col(end))));
            }
        }
    }
    CHECK(index == Approx(1).epsilon(1e-6));
}

TEST_CASE(
    "a released board's plotted stress adds up to no force in the middle of a symmetric one") {
    Board board = tests::glass_strip(0);
    board.cure = Cure{};
    board.cure->stress_free = 95;
    board.cure->room = 20;
    StudyOptions options;
    options.threads = 1;
    options.degree = 2;
    options.cases = {"release"};
    const StudyResult study = run_study(board, options);
    ResidualFields fields(board, study, 3);
    const StressFields found = fields.fields(study.cases.front());
    const auto& plies = fields.plot().plies();
    REQUIRE(plies.size() == 3);
    Eigen::Index middle = 0;
    fields.plot().position().colwise().norm().minCoeff(&middle);
    for (const StressValues* values : {&found.raw, &found.averaged}) {
        for (const int k : {0, 2}) { // along, across: plies at 0 degrees
            double sum = 0;
            double most = 0;
            for (std::size_t i = 0; i < 3; ++i) {
                const double t = plies[i] == "core" ? 6e-3 : 0.8e-3;
                const Eigen::VectorXd s = values->stress[i].col(middle);
                sum += t * (s(k) + s(k + 1)) / 2;
                most = std::max(most, std::abs(t * s(k)));
            }
            CAPTURE(k);
            CHECK(most > 100);
            CHECK(std::abs(sum) < 5e-3 * most);
        }
    }
    // free edges: nothing pulls along the normal there
    CHECK(found.lowest.array().isNaN().all());
}
