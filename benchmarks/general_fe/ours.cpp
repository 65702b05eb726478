// Our side of compare.py: one plate on given mesh lines at one degree, timed in seconds of this
// process on one thread. Reads from standard input:
//   case degree rounds, count and values of the lines along x, the same along y
// cases: "square" then 6 x 6 ABD and S of the section (yz, xz); "strip": see general_fe/README.md.
// Prints JSON: unknowns, seconds of set-up and of solving (each the least of the rounds),
// compliance.
#include <algorithm>
#include <cmath>
#include <ctime>
#include <functional>
#include <iostream>
#include <string>

#include <nlohmann/json.hpp>

#include "benchmarks/published/plate.hpp"
#include "solver/system/large_memory.hpp"

namespace {

using namespace vrid;
using published::graded_patch;

double cpu_seconds() {
    timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

struct Task {
    std::string name;
    int degree = 3, rounds = 1;
    std::vector<double> x, y;
    Section<double> section; // square
};

std::vector<double> read_lines(std::istream& in) {
    std::size_t count = 0;
    in >> count;
    std::vector<double> lines(count);
    for (double& value : lines) {
        in >> value;
    }
    return lines;
}

Task read_task(std::istream& in) {
    Task task;
    in >> task.name >> task.degree >> task.rounds;
    task.x = read_lines(in);
    task.y = read_lines(in);
    if (task.name == "square") {
        Eigen::Matrix<double, 6, 6> ABD;
        for (Eigen::Index k = 0; k < 36; ++k) {
            in >> ABD(k / 6, k % 6);
        }
        task.section.A = ABD.topLeftCorner<3, 3>();
        task.section.B = ABD.topRightCorner<3, 3>();
        task.section.D = ABD.bottomRightCorner<3, 3>();
        for (Eigen::Index k = 0; k < 4; ++k) {
            in >> task.section.S(k / 2, k % 2);
        }
    }
    return task;
}

Mesh mesh_of(const Task& task) {
    const double a = task.x.back();
    const double b = task.y.back();
    std::vector<double> u = task.x;
    std::vector<double> v = task.y;
    std::transform(u.begin(), u.end(), u.begin(), [=](double x) { return x / a; });
    std::transform(v.begin(), v.end(), v.begin(), [=](double y) { return y / b; });
    return graded_patch(published::rectangle(a, b), u, v);
}

// Faces of thickness t on a core c, reference plane at the bottom, S = G d2 / c.
PlateStiffness sandwich(double c) {
    const PlyConstants<double> face{40e9, 12e9, 0.3, 5e9, 5e9, 5e9, 1, 0, 0};
    const PlyConstants<double> core{10e9, 0.5e9, 0.4, 0.6e9, 0.6e9, 0.1e9, 1, 0, 0};
    const double t = 1e-3;
    const auto s = section(std::vector<Lamina<double>>{lamina(face, 0.0, t), lamina(core, 0.0, c),
                                                       lamina(face, 0.0, t)});
    const double stretch = (c + t) * (c + t) / c;
    return {s.A, s.B, s.D, Eigen::Vector2d(0.1e9 * stretch, 0.6e9 * stretch).asDiagonal()};
}

void taper(PlateModel& model, double length) {
    const auto m = static_cast<std::size_t>(model.reference.m);
    for (std::size_t quad = 0; quad < model.mesh.quads.size(); ++quad) {
        const Eigen::Matrix2Xd at = integration_points(model, static_cast<int>(quad));
        for (std::size_t k = 0; k < m; ++k) {
            const double share = at(0, static_cast<Eigen::Index>(k)) / length;
            model.stiffness[quad * m + k] = sandwich(8e-3 - 6e-3 * share * share);
        }
    }
}

// SS-2, w = 0 and the rotation along the side 0; even pressure of 1.
Loading square_loading(const PlateModel& model, double a, double b) {
    Loading loading = free_loading(model);
    const auto on_x = tests::outline_nodes(
        model, [=](double x, double) { return x < 1e-9 * a || x > a * (1 - 1e-9); });
    const auto on_y = tests::outline_nodes(
        model, [=](double, double y) { return y < 1e-9 * b || y > b * (1 - 1e-9); });
    for (const auto& [nodes, held] : {std::pair{&on_x, std::array{comp_w, comp_u, comp_by}},
                                      {&on_y, std::array{comp_w, comp_v, comp_bx}}}) {
        for (const Component c : held) {
            prescribe(loading, *nodes, c);
        }
    }
    loading.force = pressure_forces(model, [](double, double) { return 1.0; });
    return loading;
}

// A line force along w on the mesh line x, of this density at y.
void push_line(Loading& loading, const PlateModel& model, double x,
               const std::function<double(double y)>& density) {
    const Rule rule = lobatto(model.reference.p + 1);
    for (std::size_t e = 0; e < model.mesh.edges.size(); ++e) {
        const std::vector<int> line = edge_nodes(model.mesh, model.numbering, static_cast<int>(e));
        const Eigen::Vector2d first = model.numbering.position.col(line.front());
        const Eigen::Vector2d last = model.numbering.position.col(line.back());
        if (std::abs(first.x() - x) + std::abs(last.x() - x) > 1e-9) {
            continue;
        }
        for (std::size_t i = 0; i < line.size(); ++i) {
            loading.force(unknowns_per_node * line[i] + comp_w) +=
                density(model.numbering.position(1, line[i])) * (last - first).norm() / 2 *
                rule.weight(static_cast<Eigen::Index>(i));
        }
    }
}

// Clamped at one end, bent and twisted at the other, both ways round; then on two lines, pushed in
// the middle.
std::vector<Loading> strip_loadings(const PlateModel& model, double a, double b) {
    const auto even = [](double) { return 1.0; };
    const auto twist = [=](double y) { return y - b / 2; };
    std::vector<Loading> loadings;
    for (const double clamp : {0.0, a}) {
        for (const std::function<double(double)>& density :
             {std::function<double(double)>(even), std::function<double(double)>(twist)}) {
            loadings.push_back(free_loading(model));
            for (const Component c : {comp_u, comp_v, comp_w, comp_bx, comp_by}) {
                prescribe(loadings.back(), line_nodes(model, clamp), c);
            }
            push_line(loadings.back(), model, a - clamp, density);
        }
    }
    loadings.push_back(free_loading(model));
    for (const Component c : {comp_u, comp_v, comp_w}) {
        prescribe(loadings.back(), line_nodes(model, 0), c);
    }
    prescribe(loadings.back(), line_nodes(model, a), comp_w);
    push_line(loadings.back(), model, a / 2, even);
    return loadings;
}

} // namespace

int main() try {
    vrid::keep_freed_memory(); // as the program does
    const Task task = read_task(std::cin);
    const double a = task.x.back();
    const double b = task.y.back();
    double set_up = 1e9;
    double solving = 1e9;
    nlohmann::json out;
    for (int round = 0; round < task.rounds; ++round) {
        const double start = cpu_seconds();
        PlateModel model = make_model(mesh_of(task), task.degree, task.section);
        if (task.name == "strip") {
            taper(model, a);
        }
        const std::vector<Loading> loadings =
            task.name == "strip" ? strip_loadings(model, a, b)
                                 : std::vector<Loading>{square_loading(model, a, b)};
        const EliminationTree tree = elimination_order(model.numbering, {});
        const double ready = cpu_seconds();
        Seconds phases;
        const auto solved = solve_loadings(model, loadings, tree, 1, phases);
        const double done = cpu_seconds();
        set_up = std::min(set_up, ready - start);
        solving = std::min(solving, done - ready);
        out["unknowns"] = model.unknowns();
        out["compliance"] = nlohmann::json::array();
        for (const CaseSolution& one : solved) {
            out["compliance"].push_back(1 / one.stiffness);
        }
        out["phases"] = phases;
    }
    out["set_up"] = set_up;
    out["solving"] = solving;
    std::cout << out << "\n";
    return 0;
} catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 3;
}
