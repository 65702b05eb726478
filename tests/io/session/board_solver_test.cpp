#include "io/session/board_solver.hpp"

#include <algorithm>
#include <cmath>
#include <thread>

#include <catch2/catch.hpp>

#include "io/session/vrid.hpp"
#include "tests/places.hpp"

using namespace vrid;

namespace {

std::string example_file(const std::string& name) {
    return std::string(source_dir) + "/examples/" + name + "/board.toml";
}

Settings coarse() {
    Settings settings;
    settings.degree = 2;
    settings.threads = 1;
    return settings;
}

// What a user might do with a board: numbers of three boards on one mesh, and slopes.
std::vector<double> worked_through(const std::string& name) {
    BoardSolver solver(read_board(example_file(name)), coarse());
    std::vector<double> all;
    for (const double factor : {1.0, 1.05, 0.95}) {
        solver.set("core.thickness_scale", factor);
        for (const NamedQuantity& number : solver.study().numbers) {
            all.push_back(number.quantity.value);
        }
    }
    for (const Slope& slope : solver.slopes("nose-twist", "core.*")) {
        all.push_back(slope.value);
    }
    return all;
}

} // namespace

TEST_CASE("two solvers on two threads give what one gives") {
    const std::vector<std::string> names{"nh-157-querwind", "nh-161-lattenzaun"};
    std::vector<std::vector<double>> together(2);
    std::vector<std::thread> threads;
    for (std::size_t i = 0; i < 2; ++i) {
        threads.emplace_back([&, i] { together[i] = worked_through(names[i]); });
    }
    for (std::thread& thread : threads) {
        thread.join();
    }
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(together[i] == worked_through(names[i]));
    }
}

TEST_CASE("a refused value throws and the board stays as it was") {
    BoardSolver solver(read_board(example_file("nh-157-querwind")), coarse());
    solver.set("core.thickness_mm[3]", 4.3);
    const double before = solver.numbers({"EI@0"})[0].value;
    CHECK_THROWS_AS(solver.set("core.thickness_mm[3]", -1), InputError);
    CHECK_THROWS_AS(solver.set("core.thickness_mm[99]", 4), InputError);
    CHECK_THROWS_AS(solver.set("planform.waist_x_mm", 900), InputError); // beyond the contact lines
    CHECK_THROWS_AS(solver.set("core.thickness_mm[3]", std::nan("")), InputError);
    CHECK_THROWS_AS(solver.set("material.poplar.nu12", 40), InputError);
    CHECK(solver.board().core->thickness.value[3] == Approx(4.3e-3).epsilon(1e-15));
    CHECK(solver.numbers({"EI@0"})[0].value == before);
    CHECK_THROWS_AS(solver.numbers({"nose-twits"}), InputError);
    CHECK_THROWS_WITH(solver.study().number("nose-twits"), Catch::Contains("mean 'nose-twist'"));
    CHECK_THROWS_AS(solver.slopes("nose-twist", "core.thicknes_mm"), InputError);
    Settings wrong;
    wrong.degree = 7;
    CHECK_THROWS_AS(BoardSolver(read_board(example_file("coupon-triax")), wrong), InputError);
}

TEST_CASE("slopes are those of what set does, in the units of path and bench") {
    BoardSolver solver(read_board(example_file("nh-157-querwind")), coarse());
    solver.set("core.thickness_scale", 1.02);
    for (const std::string path : {"core.thickness_mm[12]", "core.thickness_scale"}) {
        const std::vector<Slope> slopes = solver.slopes("nose-twist", path);
        const auto slope = std::find_if(slopes.begin(), slopes.end(),
                                        [&](const Slope& one) { return one.path == path; });
        REQUIRE(slope != slopes.end());
        REQUIRE(slope->value > 0); // the station lies where the nose twists
        const double step = 1e-3 * slope->now;
        const auto moved = [&](double by) {
            solver.set(path, slope->now + by);
            return solver.numbers({"nose-twist"})[0];
        };
        const Quantity up = moved(step);
        const Quantity down = moved(-step);
        solver.set(path, slope->now);
        const double per_si = std::acos(-1) / 180; // N m/deg of one N m/rad
        CAPTURE(path);
        CHECK(slope->value == Approx(per_si * (up.value - down.value) / (2 * step)).epsilon(1e-5));
    }
    CHECK(solver.slopes("nose-twist", "core.thickness_mm").front().unit == "N m/deg per mm");
}

TEST_CASE("a number shown is the one that solve prints") {
    const Shown twist = shown(
        {9.54412 * 180 / std::acos(-1), 0.00753 * 180 / std::acos(-1), Unit::twist_stiffness});
    CHECK(twist.value == 9.544);
    CHECK(twist.error == 0.008);
    CHECK(twist.unit == "N m/deg");
    CHECK(shown({3.14159, 0, Unit::mass}).value == 3.142);
}

TEST_CASE("a board made by hand is refused with all that is wrong, as one of a file is") {
    Board board = read_board(example_file("nh-157-querwind"));
    board.layers.front().thickness = 0;
    board.edge->width = 0.2;
    board.materials.at("steel").nu12 = 0.7;
    std::vector<std::string> found;
    try {
        (void)BoardSolver(board);
    } catch (const InputError& error) {
        for (const Problem& problem : error.problems()) {
            CHECK(problem.place.empty()); // no file to point at
            found.push_back(problem.message.substr(0, problem.message.find(';')));
        }
    }
    std::sort(found.begin(), found.end());
    CHECK(found == std::vector<std::string>{"edge.width_mm: found 200",
                                            "layer.base.thickness_mm: found 0",
                                            "material.steel.E_GPa: its other moduli do not follow "
                                            "from E and nu",
                                            "material.steel.nu: found 0.7"});
}
