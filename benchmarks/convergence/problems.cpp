#include <cmath>
#include <numbers>

#include "benchmarks/convergence/problem.hpp"
#include "io/read/read_board.hpp"
#include "solver/study.hpp"
#include "tests/plate_problem.hpp"

namespace vrid::convergence {

namespace {

using std::numbers::pi;
using Pressure = std::function<double(double x, double y)>;

constexpr double E = 1e9;
constexpr double nu = 0.3;
constexpr double thickness = 0.1;

// Work of the load on a plate whose outline has w = 0 (and, if hard, no turn along the outline).
struct Plate {
    std::array<Eigen::Vector2d, 4> corners;
    double distort = 0;
    bool hard = true;
    Pressure pressure;
};

double work(const Plate& plate, int n, int degree) {
    const PlateModel model = make_model(mesh_patch(plate.corners, n, n, plate.distort), degree,
                                        tests::isotropic_section(E, nu, thickness));
    Loading loading = free_loading(model);
    const auto on = [&](const std::function<bool(double, double)>& where) {
        return tests::outline_nodes(model, where);
    };
    prescribe(loading, on([](double, double) { return true; }), comp_w);
    if (plate.hard) { // the sides run along x and y
        prescribe(loading, on([](double x, double) { return x < 1e-9 || x > 1 - 1e-9; }), comp_by);
        prescribe(loading, on([](double, double y) { return y < 1e-9 || y > 1 - 1e-9; }), comp_bx);
    }
    for (const Component c : {comp_u, comp_v}) { // symmetric section: nothing moves in plane
        prescribe(loading, on([](double, double) { return true; }), c);
    }
    loading.force = pressure_forces(model, plate.pressure);
    return 1 / tests::solve_one(model, loading).stiffness;
}

void fill(Problem& problem, const std::function<double(double size, int degree)>& number) {
    for (const int degree : problem.degrees) {
        problem.error.emplace_back();
        for (const double size : problem.size) {
            problem.error.back().push_back(std::abs(number(size, degree) / problem.exact - 1));
        }
    }
}

Problem square(double distort) {
    Problem problem;
    problem.size = {2, 4, 8, 16};
    problem.degrees = {1, 2, 3, 4, 5};
    const double D = E * std::pow(thickness, 3) / (12 * (1 - nu * nu));
    const double shear = 5.0 / 6 * E / (2 * (1 + nu)) * thickness;
    const double centre = (1 / (4 * std::pow(pi, 4)) + D / (2 * pi * pi * shear)) / D;
    problem.exact = centre / 4; // integral of the load times w
    problem.reference = "Navier's closed form with shear";
    Plate plate{{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, distort, true, {}};
    plate.pressure = [](double x, double y) { return std::sin(pi * x) * std::sin(pi * y); };
    fill(problem, [&](double n, int p) { return work(plate, static_cast<int>(n), p); });
    return problem;
}

} // namespace

Problem smooth_plate() {
    Problem problem = square(0);
    problem.title = "Smooth solution";
    problem.what = "hard supported square, h / a = 0.1, sin sin pressure: work of the load";
    return problem;
}

Problem distorted_plate() {
    Problem problem = square(0.4);
    problem.title = "Distorted mesh";
    problem.what = "the same on quads whose corners are moved by up to a fifth of a side";
    return problem;
}

Problem skew_corner() {
    Problem problem;
    problem.title = "Skew corner";
    problem.what = "rhombus of 30 degrees, w = 0 on its outline, h / a = 0.1, even pressure: work "
                   "of the load; the moments are singular at the obtuse corners";
    problem.size = {2, 4, 8, 16};
    problem.degrees = {1, 2, 3, 4, 5};
    const double c = std::cos(pi / 6);
    const Plate plate{
        {{{0, 0}, {1, 0}, {1 + c, 0.5}, {c, 0.5}}}, 0, false, [](double, double) { return 1.0; }};
    // Aitken's limit of three finer meshes at degree 6 (steps fall by a constant factor)
    const double a = work(plate, 6, 6);
    const double b = work(plate, 12, 6);
    const double d = work(plate, 24, 6);
    problem.exact = d + (d - b) * (d - b) / ((b - a) - (d - b));
    problem.reference = "limit of 6, 12 and 24 quads a side at degree 6 (Aitken)";
    fill(problem, [&](double n, int p) { return work(plate, static_cast<int>(n), p); });
    return problem;
}

Problem board(const std::string& case_name) {
    const Board nh157 =
        read_board(std::string(VRID_SOURCE_DIR) + "/examples/nh-157-querwind/board.toml",
                   load_material_library());
    const auto stiffness = [&](double size_mm, int degree) {
        StudyOptions options;
        options.cases = {case_name};
        options.degree = degree;
        options.max_size = size_mm / 1e3;
        return run_study(nh157, options).cases.front().numbers.front().quantity.value;
    };
    Problem problem;
    problem.title = "Board, " + case_name;
    problem.what =
        "NH-157 Querwind by longest quad side; lines of the board keep many quads smaller";
    problem.size = {160, 80, 40, 20};
    problem.by_quads = false;
    problem.degrees = {1, 2, 3, 4};
    problem.exact = stiffness(20, 6);
    problem.reference = "degree 6 at 20 mm";
    fill(problem, stiffness);
    return problem;
}

} // namespace vrid::convergence
