#include "mesh/mesher.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <catch2/catch.hpp>

#include "mesh_checks.hpp"
#include "reference_board.hpp"

using Eigen::Vector2d;
using vrid::Board;
using vrid::Mesh;
using vrid::MeshOptions;
using vrid::Range;

namespace {

Board bare(vrid::Planform planform) {
    Board board;
    board.planform = std::move(planform);
    return board;
}

void check_sound(const Board& board, const MeshOptions& options, const Mesh& mesh) {
    CHECK(euler_characteristic(mesh) == 1);
    CHECK(sides_agree(mesh));
    CHECK(mesh.min_scaled_jacobian > 0.1);
    CHECK(outline_area(mesh) == Approx(area(board.planform)).epsilon(1e-6));
    CHECK(outline_error(board, mesh) < 1e-9);
    for (int degree = 1; degree <= options.geometry_degree; ++degree) {
        CHECK(smallest_jacobian(mesh, degree) > 0);
    }
    CHECK(mesh.notes.empty());
    CHECK(straddling_quads(board, options, mesh) == 0);
}

const vrid::StationLine* line_at(const Mesh& mesh, double x) {
    const auto found = std::find_if(mesh.lines.begin(), mesh.lines.end(),
                                    [&](const auto& line) { return std::abs(line.x - x) < 1e-12; });
    return found == mesh.lines.end() ? nullptr : &*found;
}

void check_station(const Board& board, const Mesh& mesh, double x) {
    INFO("station " << x);
    const vrid::StationLine* line = line_at(mesh, x);
    REQUIRE(line != nullptr);
    double width = 0;
    double last = -1;
    for (const int e : line->edges) {
        const auto& edge = mesh.edges[static_cast<std::size_t>(e)];
        const Vector2d& a = mesh.vertices[static_cast<std::size_t>(edge[0])];
        const Vector2d& b = mesh.vertices[static_cast<std::size_t>(edge[1])];
        CHECK(std::abs(a.x() - x) < 1e-12);
        CHECK(std::abs(b.x() - x) < 1e-12);
        CHECK(std::min(a.y(), b.y()) >= last - 1e-12);
        last = std::max(a.y(), b.y());
        width += std::abs(a.y() - b.y());
    }
    CHECK(width == Approx(width_at(board.planform, x)).epsilon(1e-9));
}

} // namespace

TEST_CASE("the reference board is meshed with a few hundred good quads") {
    const Board board = reference_board();
    const MeshOptions options;
    const Mesh mesh = mesh_planform(board, options);
    check_sound(board, options, mesh);
    CHECK(mesh.min_scaled_jacobian > 0.5);
    CHECK(mesh.quads.size() > 350);
    CHECK(mesh.quads.size() < 700);
}

TEST_CASE("the mesh carries contact stations, foot ends and the stations asked for") {
    const Board board = reference_board();
    MeshOptions options;
    options.stations = {0.0, 0.5175, -0.5175, 0.3333};
    const Mesh mesh = mesh_planform(board, options);
    for (const double x :
         {0.0, 0.5175, -0.5175, 0.3333, 0.5675, -0.5675, 0.2175, 0.3175, -0.2425, -0.3425}) {
        check_station(board, mesh, x);
    }
    CHECK(std::is_sorted(mesh.lines.begin(), mesh.lines.end(),
                         [](const auto& p, const auto& q) { return p.x < q.x; }));
}

TEST_CASE("the outline goes once round, counter-clockwise") {
    const Mesh mesh = mesh_planform(reference_board(), {});
    std::set<int> seen;
    for (std::size_t k = 0; k < mesh.outline.size(); ++k) {
        const auto& here = mesh.outline[k];
        const auto& next = mesh.outline[(k + 1) % mesh.outline.size()];
        const auto vertex = [&](const vrid::OutlineEdge& side, int ahead) {
            return mesh.quads[static_cast<std::size_t>(side.quad)]
                             [static_cast<std::size_t>((side.side + ahead) % 4)];
        };
        CHECK(vertex(here, 1) == vertex(next, 0));
        CHECK(seen.insert(vertex(here, 0)).second);
    }
    CHECK(outline_area(mesh) > 0);
}

TEST_CASE("a symmetric board has a symmetric mesh") {
    const Mesh mesh = mesh_planform(reference_board(), {});
    std::set<std::pair<double, double>> vertices;
    for (const Vector2d& v : mesh.vertices) {
        vertices.emplace(v.x(), v.y() == 0 ? 0.0 : v.y());
    }
    for (const Vector2d& v : mesh.vertices) {
        CHECK(vertices.count({v.x(), v.y() == 0 ? 0.0 : -v.y()}) == 1);
    }
}

TEST_CASE("the same board gives the same mesh to the last bit") {
    const Mesh first = mesh_planform(reference_board(), {});
    const Mesh second = mesh_planform(reference_board(), {});
    CHECK(first.vertices == second.vertices);
    CHECK(first.quads == second.quads);
    CHECK(first.geometry == second.geometry);
}

TEST_CASE("smaller sizes give more and smaller quads") {
    const Board board = reference_board();
    for (const double size : {0.03, 0.012}) {
        MeshOptions options;
        options.max_size = size;
        const Mesh mesh = mesh_planform(board, options);
        check_sound(board, options, mesh);
        double longest = 0;
        for (const auto& edge : mesh.edges) {
            longest = std::max(longest, (mesh.vertices[static_cast<std::size_t>(edge[0])] -
                                         mesh.vertices[static_cast<std::size_t>(edge[1])])
                                            .norm());
        }
        CHECK(longest < 1.2 * size);
    }
}

TEST_CASE("a board with no lines at all is meshed") {
    const Board board =
        bare(vrid::parametric_planform({1.135, 0.25, 0.291, 0.286, 0, 0.22, 0.2, 0.6, 0.6}));
    check_sound(board, {}, mesh_planform(board, {}));
}

TEST_CASE("blunt and pointed tips with bands are meshed") {
    for (const double fullness : {0.2, 0.35, 0.75, 0.9}) {
        INFO("fullness " << fullness);
        Board board = reference_board();
        board.planform = vrid::parametric_planform(
            {1.135, 0.25, 0.291, 0.286, 0, 0.18, 0.22, fullness, 1.1 - fullness});
        check_sound(board, {}, mesh_planform(board, {}));
    }
}

TEST_CASE("a coupon has its clamp lines at its ends") {
    Board board = bare(vrid::rectangle_planform(0.25, 0.025));
    const Mesh mesh = mesh_planform(board, {});
    check_sound(board, {}, mesh);
    check_station(board, mesh, -0.125);
    check_station(board, mesh, 0.125);
}

TEST_CASE("a coupon with edge and sidewall bands is mitred at its corners") {
    Board board = bare(vrid::rectangle_planform(0.5, 0.2));
    board.edge = vrid::Edge{"steel", 0.002, std::nullopt, vrid::Flange{0.0065, 0.0005, 0.5}};
    board.sidewall = vrid::Sidewall{"abs", 0.008, std::nullopt};
    check_sound(board, {}, mesh_planform(board, {}));
}

TEST_CASE("skew plates and plates with a re-entrant corner are meshed, with bands too") {
    const double shift = 0.2 * std::tan(std::acos(-1.0) / 6);
    for (const bool bands : {false, true}) {
        Board skew = bare(vrid::polygon_planform(
            {{-0.3, -0.1}, {0.3, -0.1}, {0.3 + shift, 0.1}, {-0.3 + shift, 0.1}}, 0.3));
        Board angle = bare(vrid::polygon_planform({{-0.3, -0.15},
                                                   {0.3, -0.15},
                                                   {0.3, -0.02},
                                                   {-0.05, -0.02},
                                                   {-0.05, 0.15},
                                                   {-0.3, 0.15}},
                                                  0.4));
        for (Board* board : {&skew, &angle}) {
            if (bands) {
                board->sidewall = vrid::Sidewall{"abs", 0.008, std::nullopt};
            }
            check_sound(*board, {}, mesh_planform(*board, {}));
        }
    }
}

TEST_CASE("a swallow tail is meshed") {
    std::vector<Vector2d> points;
    std::vector<bool> corner;
    const auto add = [&](double x, double y, bool turns) {
        points.emplace_back(x, y);
        corner.push_back(turns);
    };
    add(-0.55, 0, true); // the notch
    for (int k = 1; k < 8; ++k) {
        add(-0.55 - 0.018 * k, -0.009 * k, false);
    }
    add(-0.694, -0.072, true); // the right lobe's end
    for (int k = 0; k <= 16; ++k) {
        const double x = -0.66 + 0.075 * k;
        add(x, -0.125 - 0.03 * x * x, false);
    }
    for (int k = 1; k < 16; ++k) {
        const double angle = -std::acos(-1.0) / 2 + std::acos(-1.0) * k / 16;
        add(0.54 + 0.2 * std::cos(angle), 0.13375 * std::sin(angle), false);
    }
    for (std::size_t k = points.size() - 16; k-- > 1;) { // the left side mirrors the right
        if (points[k].y() < 0 && points[k].x() < 0.545) {
            add(points[k].x(), -points[k].y(), corner[k]);
        }
    }
    Board board = bare(vrid::spline_planform(points, corner, 1.0));
    check_sound(board, {}, mesh_planform(board, {}));
    board.sidewall = vrid::Sidewall{"abs", 0.006, std::nullopt};
    const Mesh mesh = mesh_planform(board, {});
    CHECK(mesh.min_scaled_jacobian > 0.1);
    CHECK(straddling_quads(board, {}, mesh) == 0);
}

TEST_CASE("slanted ribbons, crossing ones and bands parallel to the outline are followed") {
    Board board = reference_board();
    vrid::Layer slanted;
    slanted.name = "nose ribbon";
    slanted.mirror = true;
    slanted.zone.ribbon = vrid::Ribbon{{0.25, 0.02}, {0.62, -0.06}, 0.03};
    board.layers.push_back(slanted);
    vrid::Layer round;
    round.name = "rim";
    round.zone.outline = Range{0.0, 0.025};
    board.layers.push_back(round);
    const Mesh mesh = mesh_planform(board, {});
    check_sound(board, {}, mesh);
}

TEST_CASE("resolved core strips become mesh lines") {
    Board board = reference_board();
    board.planform = vrid::rectangle_planform(0.8, 0.2);
    board.core->strips = {{"poplar", 0.018, std::nullopt, ""}, {"ash", 0.009, std::nullopt, ""}};
    board.core->resolve = true;
    board.layers.clear();
    board.stance.reset();
    const Mesh mesh = mesh_planform(board, {});
    check_sound(board, {}, mesh);
}

TEST_CASE(
    "a zone side that grazes the sidewall band is given up there, with a note that names it") {
    Board board = reference_board();
    vrid::Layer wide;
    wide.name = "wide";
    wide.zone.y = Range{-0.1195, 0.1195};
    board.layers.push_back(wide);
    const Mesh mesh = mesh_planform(board, {});
    CHECK(mesh.min_scaled_jacobian > 0.1);
    CHECK(euler_characteristic(mesh) == 1);
    REQUIRE_FALSE(mesh.notes.empty());
    CHECK(mesh.notes.front().find("'wide'") != std::string::npos);
}

namespace {

// The reference outline as a drawing: points on it, moved sideways by a sine so that nothing is
// symmetric; `side` -1 gives the mirror image.
vrid::Planform drawn_outline(double side) {
    const vrid::Planform smooth = reference_board().planform;
    std::vector<Vector2d> points;
    for (int piece = 0; piece < 6; ++piece) {
        for (int k = 0; k < 20; ++k) {
            Vector2d p = point_at(smooth, {piece, k / 20.0});
            p.y() = side * (p.y() + 0.01 * std::sin(3 * p.x() + 1));
            points.push_back(p);
        }
    }
    return vrid::spline_planform(points, {}, 1.135);
}

} // namespace

TEST_CASE("a drawn, asymmetric board is meshed, and its mirror image as well as itself") {
    std::array<double, 2> quality{};
    std::array<std::size_t, 2> quads{};
    for (const std::size_t k : {0, 1}) {
        Board board = reference_board();
        board.planform = drawn_outline(k == 0 ? 1 : -1);
        const Mesh mesh = mesh_planform(board, {});
        CHECK(euler_characteristic(mesh) == 1);
        CHECK(sides_agree(mesh));
        CHECK(outline_error(board, mesh) < 1e-9);
        CHECK(outline_area(mesh) == Approx(area(board.planform)).epsilon(1e-6));
        CHECK(straddling_quads(board, {}, mesh) == 0);
        quality[k] = mesh.min_scaled_jacobian;
        quads[k] = mesh.quads.size();
    }
    CHECK(quality[0] > 0.3);
    CHECK(quality[1] > 0.3);
    CHECK(static_cast<double>(quads[0]) == Approx(static_cast<double>(quads[1])).epsilon(0.25));
}
