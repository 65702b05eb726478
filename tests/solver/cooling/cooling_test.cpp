// Boards out of the press against closed forms: Timoshenko, Analysis of bi-metal thermostats, 1925;
// classical lamination theory with the plies of Kaw, Mechanics of Composite Materials, 2006,
// example 4.5 (inputs from memory).
#include <cmath>
#include <numbers>
#include <string>

#include <catch2/catch.hpp>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "solver/cooling/mould.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/response/fields.hpp"
#include "solver/study.hpp"

namespace {

using namespace vrid;

Board board_of(const std::string& text) {
    return read_board_text({text, "test.toml", ""}, load_material_library());
}

std::string material(const std::string& name, const std::string& values) {
    return "[material." + name + "]\ndensity_kgm3 = 1000\n" + values;
}

std::string layer(const std::string& name, const std::string& of, double mm, double angle = 0) {
    return "[[layer]]\nname = \"" + name + "\"\nmaterial = \"" + of +
           "\"\nthickness_mm = " + std::to_string(mm) + "\nangle_deg = " + std::to_string(angle) +
           "\n";
}

std::string plate(const std::string& rectangle, double from, double to) {
    return "format = 1\nname = \"plate\"\n[planform]\nrectangle_mm = " + rectangle +
           "\n[cure]\nstress_free_C = " + std::to_string(from) +
           "\nroom_C = " + std::to_string(to) + "\n";
}

const std::string tape =
    material("tape", "E1_GPa = 181\nE2_GPa = 10.3\nnu12 = 0.28\nG12_GPa = 7.17\nG13_GPa = 7.17\n"
                     "G23_GPa = 3\nalpha1_1e6K = 0.02\nalpha2_1e6K = 22.5\n");

std::string thin_plate(double lower, double upper, double mm = 0.125) {
    return plate("[50, 50]", 120, 20) + layer("a", "tape", mm, lower) +
           layer("b", "tape", mm, upper) + tape;
}

// A board with everything: unlike halves, edge, sidewall, strips, plastics that creep.
const std::string whole = R"(format = 1
name = "odd"
[planform]
running_length_mm = 1111
waist_width_mm = 247
nose_width_mm = 289
tail_width_mm = 283
nose_length_mm = 201
tail_length_mm = 187
[core]
thickness_mm = [[-560, 2.7], [-13, 7.1], [560, 2.9]]
strips = [{ material = "poplar", width_mm = 21 }, { material = "ash", width_mm = 9 }]
[[layer]]
name = "base"
material = "uhmwpe"
thickness_mm = 1.3
[[layer]]
name = "lower"
fabric = "biax-680"
angle_deg = 7
[[layer]]
name = "core"
core = true
[[layer]]
name = "upper"
fabric = "triax-680"
[[layer]]
name = "top"
material = "polyamide"
thickness_mm = 0.6
[edge]
material = "steel"
width_mm = 2
flange = { width_mm = 6, thickness_mm = 0.5, fill = 0.5 }
[sidewall]
material = "abs"
width_mm = 8
[stance]
width_mm = 530
foot_length_mm = 100
foot_width_mm = 110
[rest_shape]
z_mm = [[-743, 40], [-555, 0], [0, 5], [555, 0], [757, 44]]
[cure]
stress_free_C = 83
moisture_percent = -1.5
)";

StudyResult cooled(const Board& board, int degree = 3, bool flat = false) {
    StudyOptions options;
    options.flat = flat;
    options.cases = {"release", "cold"};
    options.degree = degree;
    return run_study(board, options);
}

double number(const CaseResult& result, const std::string& name, double station = 0) {
    for (const NamedQuantity& one : result.numbers) {
        if (one.name == name && (!one.station || std::abs(*one.station - station) < 1e-9)) {
            return one.quantity.value;
        }
    }
    FAIL("no number " << name);
    return 0;
}

double released(const std::string& text, const std::string& name, double station = 0) {
    return number(cooled(board_of(text)).cases[0], name, station);
}

double largest_rise(const CaseResult& result) {
    double largest = 0;
    for (const CrossCurve& curve : result.cooled->across) {
        for (const ShapePoint& point : curve.points) {
            largest = std::max(largest, std::abs(point.rise));
        }
    }
    for (const ShapePoint& point : result.cooled->axis) {
        largest = std::max(largest, std::abs(point.rise));
    }
    return largest;
}

std::string isotropic(double E, double nu, double alpha) {
    return "E_GPa = " + std::to_string(E) + "\nnu = " + std::to_string(nu) +
           "\nalpha1_1e6K = " + std::to_string(alpha) + "\n";
}

} // namespace

TEST_CASE("A strip of two metals arches as Timoshenko says") {
    const auto strip = [](double E1, double E2, double mm, double alpha, double from, double to) {
        return plate("[1000, 20]", from, to) + layer("a", "one", mm) + layer("b", "two", mm) +
               material("one", isotropic(E1, 0, 0)) + material("two", isotropic(E2, 0, alpha));
    };
    // k L^2 / 8 with k = 0.75 and -0.33149 1/m; a lower layer that shrinks less arches down in the
    // cold when the upper one shrinks more
    CHECK(released(strip(200, 200, 1, 10, 0, 100), "camber") == Approx(0.09375).epsilon(1e-6));
    CHECK(released(strip(206, 0.8, 1.2, 150, 80, 20), "camber") ==
          Approx(-0.33149 / 8).epsilon(2e-5));
}

TEST_CASE("Plates of two plies take the curvatures of lamination theory") {
    constexpr double k = 6.80787;
    const std::string cross = thin_plate(0, 90);
    CHECK(released(cross, "camber") == Approx(-k * 0.0025 / 8).epsilon(1e-5));
    for (const double x : {-0.025, 0.0, 0.025}) {
        CHECK(released(cross, "concavity", x) == Approx(k * 0.0025 / 8).epsilon(1e-5));
    }
    CHECK(std::abs(released(cross, "twist")) < 1e-10);
    // w = -k_xy x y / 2 with k_xy = -13.6157
    const std::string angled = thin_plate(45, -45);
    CHECK(released(angled, "twist") == Approx(13.6157 * 0.05 / 2).epsilon(1e-5));
    CHECK(std::abs(released(angled, "camber")) < 1e-12);
    CHECK(released(thin_plate(-45, 45), "twist") == Approx(-13.6157 * 0.05 / 2).epsilon(1e-5));
}

TEST_CASE("Residual stress is that of lamination theory") {
    // Kaw: 5 mm plies, -75 K: k_x = -0.127648 1/m, N = M = 0 everywhere
    const Board board = board_of(plate("[300, 300]", 95, 20) + layer("a", "tape", 5) +
                                 layer("b", "tape", 5, 90) + tape);
    const StudyResult study = cooled(board);
    const MotionSample sample = sample_motion(board, study, study.cases[0], 3);
    CHECK(sample.strain(3, 40) == Approx(-0.127648).epsilon(1e-5));
    CHECK(sample.strain(4, 40) == Approx(0.127648).epsilon(1e-5));
    const double held = 1.13124e5; // N/m, of the plies held straight
    CHECK(sample.resultant.topRows(3).cwiseAbs().maxCoeff() < 1e-5 * held);
    // stress 1 of the lower ply outside and at the interface, 47.1829 and -67.0070 MPa
    const Layup<double> layup = make_layup<double>(board);
    const Lamina<double>& ply = layup.items.front().plies.front();
    const auto stress = [&](double z) -> double {
        const Eigen::Vector3d e = sample.strain.col(40).head<3>();
        const Eigen::Vector3d bent = sample.strain.col(40).segment<3>(3);
        return (ply.Qbar * (e + z * bent - free_strain(ply, 20)))(0);
    };
    CHECK(stress(0) == Approx(47.1829e6).epsilon(1e-5));
    CHECK(stress(5e-3) == Approx(-67.0070e6).epsilon(1e-5));
}

TEST_CASE("What shrinks alike everywhere, or not at all, or as its mirror image, stays flat") {
    const auto same = [](double alpha) { return isotropic(3, 0.3, alpha); };
    const std::string alike = plate("[400, 90]", 90, 20) + layer("a", "one", 1) +
                              layer("b", "two", 2) + material("one", isotropic(70, 0.2, 23)) +
                              material("two", same(23));
    CHECK(largest_rise(cooled(board_of(alike)).cases[0]) < 1e-10 * 0.4);
    const std::string mirror = plate("[400, 90]", 90, 20) + layer("a", "tape", 0.4, 30) +
                               layer("b", "one", 2) + layer("c", "tape", 0.4, 30) + tape +
                               material("one", same(80));
    const CaseResult flat = cooled(board_of(mirror)).cases[0];
    CHECK(largest_rise(flat) < 1e-10 * 0.4);
    for (const NamedQuantity& one : flat.numbers) {
        CAPTURE(one.name); // else a table shows the digits of rounding
        CHECK(one.quantity.error >= 1e-9);
    }
    const std::string nothing = plate("[400, 90]", 20, 20) + layer("a", "tape", 0.4, 30) +
                                layer("b", "one", 2) + tape + material("one", same(80));
    CHECK(largest_rise(cooled(board_of(nothing)).cases[0]) < 1e-12);
}

TEST_CASE("A resin's shrink and a wood's moisture act as temperature does") {
    const auto pair = [](double alpha, double shrink, double swell, double moisture, double from) {
        return plate("[400, 40]", from, 20) + "moisture_percent = " + std::to_string(moisture) +
               "\n" + layer("a", "one", 1) + layer("b", "two", 1) +
               material("one", isotropic(10, 0.3, 0)) +
               material("two", isotropic(5, 0.3, alpha) +
                                   "shrink1_percent = " + std::to_string(shrink) +
                                   "\nswell1_percent = " + std::to_string(swell) + "\n");
    };
    const double by_heat = released(pair(40, 0, 0, 0, 70), "camber"); // 0.2 % of strain
    CHECK(std::abs(by_heat) > 1e-3);
    CHECK(released(pair(0, 0.2, 0, 0, 70), "camber") == Approx(by_heat).epsilon(1e-9));
    CHECK(released(pair(0, 0, 0.1, -2, 70), "camber") == Approx(by_heat).epsilon(1e-9));
}

TEST_CASE("A board's shape is the sum of its layers' parts, and mould and release give it back") {
    const Board board = board_of(whole);
    const StudyResult study = cooled(board);
    for (const CaseResult& result : {study.cases[0], study.cases[1]}) {
        ShapePart sum;
        for (const ShapePart& part : result.cooled->by_layer) {
            sum.camber += part.camber;
            sum.concavity += part.concavity;
            sum.twist += part.twist;
        }
        CHECK(sum.camber == Approx(number(result, "camber")).epsilon(1e-8));
        CHECK(sum.concavity == Approx(number(result, "concavity")).epsilon(1e-8));
        CHECK(sum.twist == Approx(number(result, "twist")).epsilon(1e-7));
        CHECK(result.cooled->largest_reaction < 1e-6); // of what elements strain in a rigid motion
    }
    for (const CaseResult& result : cooled(board, 3, true).cases) {
        CHECK((!result.cooled || result.cooled->largest_reaction < 1e-9));
    }
    CHECK(number(study.cases[1], "camber") != Approx(number(study.cases[0], "camber")));
    // axis and camber agree; mould line plus change is what was wanted
    double at_middle = 1;
    for (const MouldPoint& point : mould_line(board, *study.cases[0].cooled)) {
        CHECK(point.mould + point.change == Approx(point.wanted).margin(1e-12));
        at_middle = std::abs(point.x) < 1e-9 ? point.change : at_middle;
    }
    CHECK(at_middle == Approx(number(study.cases[0], "camber")).epsilon(1e-9));
    CHECK(wanted_camber(board) == Approx(0.005).epsilon(2e-4)); // contact half a mm beyond 555
}

TEST_CASE("What creeps is a board with that much less stiffness") {
    const auto pair = [](double E, const std::string& slow) {
        return plate("[400, 40]", 70, 20) + layer("a", "one", 1) + layer("b", "two", 1) +
               material("one", isotropic(10, 0.3, 0)) +
               material("two", isotropic(E, 0.3, 40) + slow);
    };
    CHECK(released(pair(5, "slow = 0.3\n"), "camber") ==
          Approx(released(pair(1.5, ""), "camber")).epsilon(1e-9));
}

TEST_CASE("A plastic holds no stress above its own temperature, nor above the laminate's") {
    const auto pair = [](double from, const std::string& own) {
        return plate("[400, 40]", from, 20) + layer("a", "one", 1) + layer("b", "two", 1) +
               material("one", isotropic(10, 0.3, 0)) +
               material("two", isotropic(5, 0.3, 40) + own);
    };
    CHECK(released(pair(90, "stress_free_C = 45\n"), "camber") ==
          Approx(released(pair(45, ""), "camber")).epsilon(1e-9));
    CHECK(released(pair(40, "stress_free_C = 55\n"), "camber") ==
          Approx(released(pair(40, ""), "camber")).epsilon(1e-9));
}

TEST_CASE("The mirror image of a plate twists the other way and has the same camber") {
    const auto plies = [](double lower, double upper) {
        return plate("[300, 80]", 95, 20) + layer("a", "tape", 0.3, lower) + layer("b", "one", 1) +
               layer("c", "tape", 0.2, upper) + tape + material("one", isotropic(3, 0.3, 60));
    };
    const std::string one = plies(25, -60);
    const std::string image = plies(-25, 60);
    CHECK(std::abs(released(one, "twist")) > 1e-3);
    CHECK(released(image, "twist") == Approx(-released(one, "twist")).epsilon(1e-7));
    CHECK(released(image, "camber") == Approx(released(one, "camber")).epsilon(1e-7));
}

TEST_CASE("Derivatives of a shape by every design value are those of differences") {
    Board board = board_of(whole);
    const std::vector<NumberId> requests{{NumberId::Kind::shape, "release", 0, 0, {}, "camber"},
                                         {NumberId::Kind::shape, "cold", 0, 0, {}, "camber_edge"},
                                         {NumberId::Kind::shape, "cold", 0, 0.2, {}, "concavity"},
                                         {NumberId::Kind::shape, "release", 0, 0, {}, "twist"},
                                         {NumberId::Kind::shape, "mould", 0, 0, {}, "camber"}};
    const DesignBoard design = design_board(board);
    NumbersOptions options;
    options.degree = 1; // derivatives are those of the discrete board
    options.max_size = 0.15;
    const BoardNumbers found = board_numbers(design, requests, options);
    options.slopes = false;
    options.prepared = found.prepared;
    std::size_t moving = 0;
    for (std::size_t v = 0; v < design.values.size(); ++v) {
        const DesignValue& value = design.values[v];
        if (value.kind().moves_lines) {
            continue; // another mesh
        }
        const double size = value.kind().step > 0 ? value.kind().step : std::abs(value.value);
        const double step = 1e-3 * size;
        const auto at = [&](double change) {
            SetValues set;
            set.ids = {value.id};
            set.values = Eigen::VectorXd::Constant(1, value.value + change);
            return board_numbers(design_board(board, set), requests, options);
        };
        const BoardNumbers up = at(step);
        const BoardNumbers down = at(-step);
        for (std::size_t r = 0; r < requests.size(); ++r) {
            const double difference =
                (up.numbers[r].quantity.value - down.numbers[r].quantity.value) / (2 * step);
            const double slope = found.numbers[r].slope(static_cast<Eigen::Index>(v));
            CAPTURE(r, value.id.part, static_cast<int>(value.kind().property),
                    value.kind().constant != nullptr ? value.kind().constant->key : "");
            const double scale = 0.02 / size; // a camber of 20 mm by the value's own size
            CHECK(std::abs(slope - difference) < 1e-5 * std::abs(difference) + 2e-6 * scale);
            moving += std::abs(slope) > 1e-6 * scale ? 1 : 0;
        }
    }
    CHECK(moving > 100);
}
