#include "solver/design/match.hpp"

#include <cmath>
#include <numbers>
#include <tuple>

#include <catch2/catch.hpp>

#include "io/design/design_values.hpp"
#include "io/design/number_names.hpp"
#include "io/materials/design_paths.hpp"
#include "io/read/read_board.hpp"
#include "solver/design/board_numbers.hpp"
#include "tests/places.hpp"

using namespace vrid;

namespace {

// A sandwich strip, 300 x 40 mm, with five core stations.
Board strip(const std::vector<double>& core_mm = {6, 6, 6, 6, 6}) {
    Board board = read_board(std::string(source_dir) + "/examples/coupon-sandwich/board.toml",
                             load_material_library());
    board.core->thickness.x = {-0.15, -0.08, 0, 0.08, 0.15};
    board.core->thickness.value.clear();
    for (const double value : core_mm) {
        board.core->thickness.value.push_back(value * 1e-3);
    }
    return board;
}

double number(const Board& board, const std::string& name) {
    NumbersOptions options;
    options.slopes = false;
    return board_numbers(board, {parse_number(name, board)}, options)
        .numbers.front()
        .quantity.value;
}

Target value_target(const Board& board, const std::string& name, double value, double within) {
    Target target;
    target.number = parse_number(name, board);
    target.wanted = value;
    target.within = within;
    target.place = name;
    return target;
}

// As another board has it.
Target as_of(const Board& other, const std::string& name, double within) {
    return value_target(other, name, number(other, name), within);
}

std::vector<DesignId> matched_ids(const Board& board, const std::vector<std::string>& paths) {
    std::vector<DesignId> ids;
    for (const std::string& path : paths) {
        ids.push_back(find_design(board, path)->id);
    }
    return ids;
}

FreeValue free_core(std::vector<int> stations, double min_mm, double max_mm) {
    FreeValue free;
    free.min = min_mm * 1e-3;
    free.max = max_mm * 1e-3;
    for (const int i : stations) {
        free.ids.push_back(
            matched_ids(strip(), {"core.thickness_mm[" + std::to_string(i) + "]"}).front());
    }
    return free;
}

struct Found {
    MatchProblem problem;
    MatchResult result;
};

Found matched(const Board& board, const Goal& goal) {
    Found found{match_problem(board, goal), {}};
    const std::vector<DesignId> ids = found.problem.ids();
    found.result = match(found.problem, goal, std::vector<double>(goal.targets.size(), 0),
                         [&](const Eigen::VectorXd& values, bool) {
                             const BoardNumbers all = board_numbers(
                                 design_board(board, {ids, values}), found.problem.numbers);
                             NumbersAt at{{}, slopes_by(all, ids)};
                             for (const BoardNumber& one : all.numbers) {
                                 at.numbers.push_back(one.quantity);
                             }
                             return at;
                         });
    return found;
}

const std::vector<std::string> matched_numbers{"mass", "EI@-100", "GJ@40", "thickness@0"};

} // namespace

TEST_CASE("thicknesses of a known board are found from its numbers alone, step for step") {
    const Board known = strip({6, 7.35, 5.8, 6.6, 6});
    Goal goal;
    for (const char* name : {"EI@-80", "EI@0", "EI@80"}) {
        goal.targets.push_back(as_of(known, name, 0.002));
    }
    goal.free.push_back(free_core({1, 2, 3}, 3, 9));
    goal.free.front().round_to = 0.05e-3;
    const Found found = matched(strip(), goal);
    REQUIRE(found.result.met);
    CHECK(found.result.values[0] == Approx(7.35e-3).epsilon(1e-12));
    CHECK(found.result.values[1] == Approx(5.8e-3).epsilon(1e-12));
    CHECK(found.result.values[2] == Approx(6.6e-3).epsilon(1e-12));
    CHECK(found.result.targets[1].after.value == Approx(number(known, "EI@0")).epsilon(1e-12));
}

TEST_CASE(
    "a bench number of a solved board is met after rounding, at the mass of the known board") {
    const Board known = strip({6, 6.5, 6.5, 6.5, 6});
    Goal goal;
    goal.targets = {as_of(known, "centre-flex", 0.005)};
    goal.free.push_back(free_core({1, 2, 3}, 3, 9));
    goal.free.front().round_to = 0.05e-3;
    goal.least = Least::mass;
    const Found found = matched(strip(), goal);
    REQUIRE(found.result.met);
    for (const double value : found.result.values) {
        const double steps = value / 0.05e-3;
        CHECK(std::abs(steps - std::round(steps)) < 1e-9);
    }
    const MatchedTarget& flex = found.result.targets.front();
    CHECK(std::abs(flex.after.value / number(known, "centre-flex") - 1) <= 0.005);
    CHECK(found.result.mass_after.value <= number(known, "mass") * (1 + 1e-9));
}

TEST_CASE("neighbouring stations keep the slope, which a match without it breaks") {
    Goal goal;
    goal.targets = {value_target(strip(), "EI@0", 1.6 * number(strip(), "EI@0"), 0.005)};
    goal.free.push_back(free_core({0, 1, 2, 3, 4}, 2, 9));
    goal.least = Least::mass;
    goal.free.front().round_to = 0.05e-3;
    const auto steepest = [](const Found& found) {
        const auto& v = found.result.values;
        return std::max(std::abs(v[2] - v[1]), std::abs(v[3] - v[2])) / 0.08;
    };
    const Found free = matched(strip(), goal);
    REQUIRE(free.result.met);
    CHECK(steepest(free) > 0.03);
    goal.free.front().max_slope = 0.02;
    const Found kept = matched(strip(), goal);
    REQUIRE(kept.result.met);
    CHECK(steepest(kept) <= 0.02 * (1 + 1e-6));
    CHECK(std::abs(kept.result.values[1] - kept.result.values[0]) / 0.07 <= 0.02 * (1 + 1e-6));
    CHECK(kept.result.mass_after.value > free.result.mass_after.value);
    CHECK(std::any_of(
        kept.result.active.begin(), kept.result.active.end(),
        [](const ActiveLimit& limit) { return limit.kind == ActiveLimit::Kind::slope; }));
}

TEST_CASE("a target out of reach ends at the limit that is named as standing in the way") {
    Goal goal;
    goal.targets = {value_target(strip(), "EI@0", 3 * number(strip(), "EI@0"), 0.005)};
    goal.free.push_back(free_core({2}, 4, 7));
    const Found found = matched(strip(), goal);
    CHECK_FALSE(found.result.met);
    CHECK(found.result.values[0] == Approx(7e-3).epsilon(1e-9));
    CHECK(found.result.targets.front().after.value ==
          Approx(number(strip({6, 6, 7, 6, 6}), "EI@0")).epsilon(1e-6));
    REQUIRE(found.result.obstacles.size() == 1);
    CHECK(found.result.obstacles.front().kind == Obstacle::Kind::max);
    // how far off, in percent of the bound
    const double wanted = 3 * 0.995 * number(strip(), "EI@0");
    CHECK(found.result.miss ==
          Approx(100 * (1 - found.result.targets.front().after.value / wanted)));
    CHECK(found.result.obstacles.front().miss_without < found.result.miss);
    CHECK(found.result.obstacles.front().miss_without > 0.8 * found.result.miss);
}

TEST_CASE("a board that meets its goal as it stands is not told, for less mass, that none does") {
    const std::string glass = "fabric = \"glass-ud-300\"\n";
    const auto ply = [](const std::string& name, const std::string& mm, const std::string& turned) {
        return "[[layer]]\nname = \"" + name + "\"\nmaterial = \"maple\"\nthickness_mm = " + mm +
               "\nangle_deg = " + turned + "\n";
    };
    const Board deck =
        read_board_text({"format = 1\nname = \"deck\"\n[planform]\nrectangle_mm = [960, 240]\n"
                         "running_length_mm = 700\n[[layer]]\nname = \"lower\"\n" +
                             glass + ply("a", "1.5", "0") + ply("b", "1.5", "90") +
                             ply("c", "5", "0") + "[[layer]]\nname = \"upper\"\n" + glass +
                             "[stance]\nwidth_mm = 560\nfoot_length_mm = 60\nfoot_width_mm = 120\n",
                         "deck.toml", ""},
                        load_material_library());
    Goal goal;
    goal.targets = {as_of(deck, "centre-flex", 0.005), as_of(deck, "stance-twist", 0.005)};
    for (const auto& [paths, min, max] :
         {std::tuple(std::vector<std::string>{"layer.a.thickness_mm", "layer.b.thickness_mm",
                                              "layer.c.thickness_mm"},
                     0.5e-3, 8e-3),
          std::tuple(std::vector<std::string>{"layer.lower.areal_weight_scale",
                                              "layer.upper.areal_weight_scale"},
                     0.5, 2.0)}) {
        FreeValue free;
        free.ids = matched_ids(deck, paths);
        free.min = min;
        free.max = max;
        goal.free.push_back(free);
    }
    goal.least = Least::mass;
    const MatchResult found = matched(deck, goal).result;
    CHECK(found.met);
    CHECK(found.mass_after.value < 0.985 * found.mass_before.value);
}

TEST_CASE("targets that pull apart are both named, and the nearest answer misses both alike") {
    Goal goal;
    goal.targets = {value_target(strip(), "EI@0", 1.4 * number(strip(), "EI@0"), 0.005),
                    value_target(strip(), "thickness@0", number(strip(), "thickness@0"), 0.005)};
    goal.free.push_back(free_core({2}, 4, 9));
    const Found found = matched(strip(), goal);
    CHECK_FALSE(found.result.met);
    REQUIRE(found.result.obstacles.size() == 2);
    for (const Obstacle& obstacle : found.result.obstacles) {
        CHECK(obstacle.kind == Obstacle::Kind::target);
        CHECK(obstacle.miss_without < 0.01);
    }
    // as the search measures it: 100 ln of a stiffness, percent of the start of a thickness
    CHECK(-100 * std::log(1 - found.result.targets[0].miss / 100) ==
          Approx(found.result.targets[1].miss * 1.005).epsilon(0.02));
}

TEST_CASE("what a target stands in the way of is told as far as the values' own limits reach") {
    Goal goal;
    goal.targets = {
        value_target(strip(), "EI@0", number(strip(), "EI@0"), 0.005),
        value_target(strip(), "thickness@0", number(strip(), "thickness@0") - 4e-3, 0.005)};
    goal.free.push_back(free_core({2}, 1, 9));
    const Found found = matched(strip(), goal);
    CHECK_FALSE(found.result.met);
    REQUIRE(found.result.obstacles.size() == 2);
    for (const Obstacle& obstacle : found.result.obstacles) {
        CHECK(obstacle.miss_without < 0.01); // 2 mm of core and 6 mm, from between
    }
}

TEST_CASE("stations that cannot keep the slope between their limits are told before any search") {
    Goal goal;
    goal.targets = {value_target(strip(), "EI@0", number(strip(), "EI@0"), 0.005)};
    goal.free.push_back(free_core({2}, 5, 7)); // beside fixed stations of 6 and 2 mm
    goal.free.front().max_slope = 0.01;
    const Found found = matched(strip({6, 6, 6, 2, 2}), goal);
    CHECK_FALSE(found.result.met);
    CHECK(found.result.slopes_broken > 0.02);
    CHECK(found.result.solves == 1);
}

TEST_CASE("an angle from which a number does not move at first is turned nevertheless") {
    Board board = strip();
    Layer& upper = board.layers.back();
    upper.angle = 0; // glass at 0 and +-45: EI is even in the angle
    Goal goal;
    goal.targets = {value_target(board, "EI@0", 0.97 * number(board, "EI@0"), 0.002)};
    FreeValue free;
    free.ids = matched_ids(board, {"layer." + upper.name + ".angle_deg"});
    free.min = 0;
    free.max = std::numbers::pi / 4;
    goal.free = {free};
    const Found found = matched(board, goal);
    REQUIRE(found.result.met);
    CHECK(found.result.values[0] > 0.05);
}

TEST_CASE("the same goal gives the same answer to the last bit") {
    Goal goal;
    goal.targets = {value_target(strip(), "GJ@0", 1.2 * number(strip(), "GJ@0"), 0.005)};
    goal.free.push_back(free_core({0, 1, 2, 3, 4}, 3, 9));
    goal.free.front().max_slope = 0.02;
    const Found one = matched(strip(), goal);
    const Found two = matched(strip(), goal);
    CHECK(one.result.met);
    CHECK(one.result.values == two.result.values);
}

TEST_CASE("a board at other values is the board with these changes, and slopes are by them") {
    const Board board = strip();
    const std::vector<std::string> paths{
        "core.thickness_mm[2]",        "layer.upper glass.areal_weight_scale",
        "layer.lower glass.angle_deg", "fabric.triax-740.fibre_volume_fraction",
        "material.e-glass.E_GPa",      "material.e-glass.nu",
        "mass_only.resin_gsm"};
    const std::vector<DesignId> ids = matched_ids(board, paths);
    const std::vector<double> of_file{6.4, 1.3, 4, 0.45, 70, 0.25, 200};
    const Eigen::VectorXd values =
        (Eigen::VectorXd(7) << 6.4e-3, 1.3, 4 * std::numbers::pi / 180, 0.45, 70e9, 0.25, 0.2)
            .finished();
    Board changed = board;
    std::vector<Change> changes;
    for (std::size_t i = 0; i < paths.size(); ++i) {
        changes.push_back({paths[i], of_file[i], ""});
    }
    apply_changes(changed, changes, {});
    std::vector<NumberId> requests;
    for (const std::string& name : matched_numbers) {
        requests.push_back(parse_number(name, board));
        CHECK(number(*design_board(board, {ids, values}).board, name) ==
              Approx(number(changed, name)).epsilon(1e-12));
    }
    const auto board_at = [&](const Eigen::VectorXd& at) {
        return *design_board(board, {ids, at}).board;
    };
    const Eigen::MatrixXd slopes =
        slopes_by(board_numbers(design_board(board, {ids, values}), requests), ids);
    for (Eigen::Index i = 0; i < values.size(); ++i) {
        const double step = 1e-4 * values[i];
        Eigen::VectorXd up = values;
        Eigen::VectorXd down = values;
        up[i] += step;
        down[i] -= step;
        for (std::size_t k = 0; k < requests.size(); ++k) {
            CAPTURE(paths[static_cast<std::size_t>(i)], matched_numbers[k]);
            const double by_difference = (number(board_at(up), matched_numbers[k]) -
                                          number(board_at(down), matched_numbers[k])) /
                                         (2 * step);
            const double scale = number(board, matched_numbers[k]) / values[i];
            CHECK(std::abs(slopes(static_cast<Eigen::Index>(k), i) - by_difference) < 1e-6 * scale);
        }
    }
}
