#include "solver/edge.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <string>
#include <utility>

#include <catch2/catch.hpp>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "mesh/board/error.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/system/loading.hpp"
#include "tests/places.hpp"

using namespace vrid;

namespace {

constexpr double degree = std::numbers::pi / 180;

Board example_board(const std::string& name) {
    return read_board(std::string(source_dir) + "/examples/" + name + "/board.toml",
                      load_material_library());
}

EdgeCondition edged(double angle, double force, double hardness) {
    EdgeCondition one;
    one.tilt = angle * degree;
    one.force = force;
    one.hardness = hardness;
    return one;
}

Quantity number(const EdgeConditionResult& one, const std::string& name) {
    for (const NamedQuantity& named : one.numbers) {
        if (named.name == name) {
            return named.quantity;
        }
    }
    FAIL("no number " << name);
    return {};
}

} // namespace

TEST_CASE("1000 random conditions come to rest within 15 Newton steps, in balance to 1e-9") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> share(0, 1);
    std::vector<EdgeCondition> conditions;
    for (int i = 0; i < 1000; ++i) {
        EdgeCondition one = edged(10 + 70 * share(random), 50 * std::pow(100, share(random)),
                                  4e7 * std::pow(2000, share(random)));
        one.share = share(random);
        one.side = share(random) < 0.5 ? Side::left : Side::right;
        conditions.push_back(one);
    }
    EdgeOptions one_degree;
    one_degree.bars = false;
    const EdgeResult result = run_edge(example_board("nh-157-querwind"), conditions, one_degree);
    int worst = 0;
    int many = 0;
    for (const EdgeConditionResult& one : result.conditions) {
        REQUIRE(one.no_equilibrium.empty());
        CHECK(number(one, "balance").value < 1e-9);
        worst = std::max(worst, one.steps);
        many += one.steps > 15 ? 1 : 0;
    }
    WARN("worst " << worst << " Newton steps, " << many << " of 1000 above 15");
    CHECK(worst <= 15);
}

TEST_CASE("bars of effective length and roll moments hold the answer of closer snow points") {
    const std::vector<EdgeCondition> conditions{edged(45, 800, 5e9), edged(45, 800, 5e10)};
    const std::vector<std::pair<std::string, std::vector<std::string>>> numbers{
        {"nh-157-querwind", {"effective_length", "roll_moment_front"}},
        {"nh-161-lattenzaun", {"roll_moment_rear"}}};
    for (const auto& [name, ones] : numbers) {
        const Board board = example_board(name);
        const EdgeResult shown = run_edge(board, conditions);
        EdgeOptions close;
        close.max_size = 0.02;
        close.bars = false;
        const EdgeResult closer = run_edge(board, conditions, close);
        for (std::size_t i = 0; i < conditions.size(); ++i) {
            for (const std::string& one : ones) {
                CAPTURE(name, i, one);
                const Quantity found = number(shown.conditions[i], one);
                const double exact = number(closer.conditions[i], one).value;
                CHECK(std::abs(found.value - exact) < found.error);
            }
        }
    }
}

TEST_CASE("the bars of peak, contact length, shares and losses hold the answer of degree 5") {
    const std::vector<EdgeCondition> conditions{edged(30, 800, 5e8), edged(45, 1600, 5e7),
                                                edged(60, 1600, 5e8), edged(60, 800, 5e9),
                                                edged(45, 800, 5e10)};
    const Board board = example_board("nh-157-querwind");
    const EdgeResult shown = run_edge(board, conditions);
    EdgeOptions fine;
    fine.degree = 5;
    const EdgeResult truth = run_edge(board, conditions, fine);
    int inside = 0;
    int all = 0;
    for (std::size_t i = 0; i < conditions.size(); ++i) {
        for (const char* name : {"peak", "contact_length", "share_nose", "share_middle",
                                 "share_tail", "loss_nose", "loss_tail", "loss_nose_twist"}) {
            const Quantity a = number(shown.conditions[i], name);
            const double error = std::abs(a.value - number(truth.conditions[i], name).value);
            const bool in = error <= a.error;
            inside += in ? 1 : 0;
            ++all;
            if (!in) {
                WARN(name << " of condition " << i << ": off by " << error << ", bar " << a.error);
            }
        }
    }
    WARN(inside << " of " << all << " inside their bars");
    CHECK(inside >= 0.95 * all);
}

TEST_CASE(
    "an edge with contact stations of its own tells its loss there, and nothing else changes") {
    Board board = example_board("nh-157-querwind");
    EdgeCondition left = edged(45, 800, 5e9);
    EdgeCondition right = left;
    right.side = Side::right;
    const EdgeResult plain = run_edge(board, {left, right});
    const EdgeCurve& curve = plain.conditions[0].curve;
    const auto loss_at = [&](double x) { // along the same edge of the board that has none
        Eigen::Index i = 1;
        while (curve.x(i) < x || curve.x(i) - curve.x(i - 1) < 1e-9) {
            ++i;
        }
        const double part = (x - curve.x(i - 1)) / (curve.x(i) - curve.x(i - 1));
        return (1 - part) * curve.loss(i - 1) + part * curve.loss(i);
    };
    constexpr double tail = -0.47;
    constexpr double nose = 0.45;
    board.planform.edge_contact[0] = {tail, nose};
    const EdgeResult own = run_edge(board, {left, right});
    const auto turned = [&](int i, const char* name) { return number(own.conditions[i], name); };
    const auto before = [&](int i, const char* name) { return number(plain.conditions[i], name); };
    CHECK(turned(0, "loss_nose").value == Approx(loss_at(nose)).epsilon(2e-3));
    CHECK(turned(0, "loss_tail").value == Approx(loss_at(tail)).epsilon(2e-3));
    CHECK(std::abs(turned(0, "loss_nose").value - before(0, "loss_nose").value) >
          0.05 * before(0, "loss_nose").value);
    CHECK(turned(0, "loss_nose_twist").value < before(0, "loss_nose_twist").value);
    for (const char* name : {"loss_nose", "loss_tail", "loss_nose_twist", "loss_tail_twist"}) {
        CHECK(std::abs(turned(1, name).value - before(1, name).value) <=
              turned(1, name).error + before(1, name).error);
    }
    for (const char* name : {"peak", "effective_length", "share_nose", "turn_radius"}) {
        CHECK(std::abs(turned(0, name).value - before(0, name).value) <=
              turned(0, name).error + before(0, name).error);
    }
}

TEST_CASE("a soft board on hard snow draws the sidecut radius times cos t") {
    Board board = example_board("nh-157-querwind");
    board.rest_shape.reset();
    board.stance->foot_length = 0.03;
    for (double& thickness : board.core->thickness.value) {
        thickness = 2e-3; // soft all along
    }
    std::vector<EdgeCondition> conditions{edged(30, 3000, 1e12), edged(60, 3000, 1e12)};
    const EdgeResult result = run_edge(board, conditions);
    for (const EdgeConditionResult& one : result.conditions) {
        const double expected = sidecut_radius(board.planform)[0] * std::cos(one.condition.tilt);
        const double ratio = number(one, "turn_radius").value / expected;
        WARN("turn radius over sidecut radius x cos t at " << one.condition.tilt / degree
                                                           << " deg: " << ratio);
        CHECK(ratio == Approx(1).epsilon(0.02));
    }
}

TEST_CASE(
    "the turn of the section is the best line through the whole board's motion at the contact "
    "station, and bars across the board leave hardly any loss beyond it") {
    Board board = example_board("nh-157-querwind");
    const std::vector<EdgeCondition> conditions{edged(45, 1200, 5e8), edged(30, 800, 5e8)};
    EdgeOptions options;
    options.motion = true;
    const auto across = [&](Board at) {
        EdgeCondition right = conditions[0];
        right.side = Side::right;
        const EdgeResult result = run_edge(at, {conditions[0], conditions[1], right}, options);
        const Layup<double> layup = make_layup<double>(at);
        SectionCache sections(layup);
        const PlateModel model = make_model(result.mesh, result.numbering.degree, sections);
        double rest = 0;
        for (const EdgeConditionResult& one : result.conditions) {
            const double sign = one.condition.side == Side::left ? 1 : -1;
            for (const auto& [name, x] : {std::pair("loss_nose", 1), std::pair("loss_tail", -1)}) {
                const double contact = x * at.planform.running_length / 2;
                const auto line =
                    std::min_element(model.mesh.lines.begin(), model.mesh.lines.end(),
                                     [&](const StationLine& a, const StationLine& b) {
                                         return std::abs(a.x - contact) < std::abs(b.x - contact);
                                     });
                const double twist = number(one, std::string(name) + "_twist").value;
                CHECK(twist == Approx(sign * line_slope(model, *line, one.motion)).epsilon(1e-7));
                rest = std::max(rest, std::abs(number(one, name).value / twist - 1));
            }
        }
        return rest;
    };
    const double usual = across(board);
    Material bars; // across the board, with next to nothing in shear
    bars.E1 = 2e12;
    bars.E2 = 1e8;
    bars.nu12 = 0.1;
    bars.G12 = bars.G13 = bars.G23 = 1e8;
    bars.density = 1000;
    board.materials["bars"] = bars;
    for (const char* name : {"lower bars", "upper bars"}) {
        Layer layer = board.layers.front();
        layer.name = name;
        layer.material = "bars";
        layer.thickness = 5e-4;
        layer.angle = std::numbers::pi / 2;
        board.layers.insert(std::string(name) == "lower bars" ? board.layers.begin() + 1
                                                              : board.layers.end(),
                            layer);
    }
    const double stiff = across(board);
    WARN("bending across is " << usual << " of the section's turn, " << stiff << " when stiff");
    CHECK(usual > 0.05);
    CHECK(stiff < 0.2 * usual);
}

TEST_CASE("a layup stiffer in twist, as stiff in bending, loses less edging angle at the tips and "
          "loads them more") {
    const Board triax = example_board("nh-157-querwind");
    Board biax = example_board("nh-157-biax");
    // All glass at +-45 degrees bends more: a thicker core makes up for it at the waist.
    const std::vector<double> core = biax.core->thickness.value;
    const double wanted = cross_section(triax, 0).EI;
    double low = 1;
    double high = 2;
    for (int i = 0; i < 30; ++i) {
        const double scale = (low + high) / 2;
        for (std::size_t k = 0; k < core.size(); ++k) {
            biax.core->thickness.value[k] = scale * core[k];
        }
        (cross_section(biax, 0).EI < wanted ? low : high) = scale;
    }
    const std::vector<EdgeCondition> conditions{edged(45, 1200, 5e8)};
    const EdgeConditionResult a = run_edge(triax, conditions).conditions[0];
    const EdgeConditionResult b = run_edge(biax, conditions).conditions[0];
    const auto tips = [](const EdgeConditionResult& one) {
        return number(one, "share_nose").value + number(one, "share_tail").value;
    };
    WARN("loss at the nose " << number(a, "loss_nose").value / degree << " -> "
                             << number(b, "loss_nose").value / degree << " deg, at the tail "
                             << number(a, "loss_tail").value / degree << " -> "
                             << number(b, "loss_tail").value / degree << " deg, tips' share "
                             << tips(a) << " -> " << tips(b) << ", core x " << high);
    CHECK(number(b, "loss_nose").value < number(a, "loss_nose").value);
    CHECK(number(b, "loss_tail").value < number(a, "loss_tail").value);
    CHECK(tips(b) > tips(a));
}

TEST_CASE("a flexible waist loads the middle") {
    const Board board = example_board("nh-157-querwind");
    Board flexible = board;
    for (std::size_t k = 0; k < flexible.core->thickness.x.size(); ++k) {
        const double from_feet = std::abs(flexible.core->thickness.x[k] - board.stance->rear() -
                                          board.stance->width / 2);
        flexible.core->thickness.value[k] *= from_feet < 0.2 ? 0.8 : 1;
    }
    const std::vector<EdgeCondition> conditions{edged(45, 1200, 5e8)};
    const double a = number(run_edge(board, conditions).conditions[0], "share_middle").value;
    const double b = number(run_edge(flexible, conditions).conditions[0], "share_middle").value;
    WARN("share of the middle " << a << " -> " << b);
    CHECK(b > a);
}

TEST_CASE("what no board can do is refused with all reasons at once") {
    const Board board = example_board("nh-157-querwind");
    const double nan = std::numeric_limits<double>::quiet_NaN();
    std::vector<EdgeCondition> bad{edged(9, 800, 1e9), edged(81, 800, 1e9), edged(45, 0, 1e9),
                                   edged(45, 800, -1), edged(nan, 800, 1e9)};
    bad.push_back(edged(45, 800, 1e9));
    bad.back().share = 1.01;
    try {
        run_edge(board, bad);
        FAIL("accepted");
    } catch (const InputError& error) {
        CHECK(error.problems().size() == bad.size());
    }
    CHECK_THROWS_AS(run_edge(example_board("coupon-triax"), {edged(45, 800, 1e9)}), InputError);
}
