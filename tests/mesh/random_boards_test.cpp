#include <cmath>
#include <random>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"
#include "mesh/mesher.hpp"
#include "mesh_checks.hpp"
#include "reference_board.hpp"

using vrid::Board;
using vrid::Range;

namespace {

class RandomBoards {
  public:
    explicit RandomBoards(unsigned seed) : random_(seed) {}

    Board next() {
        Board board = reference_board();
        board.layers.clear();
        board.planform = planform();
        half_ = board.planform.running_length / 2;
        core(board);
        bands(board);
        if (chance(0.7)) {
            board.stance->width = between(0.8, 1) * half_;
        } else {
            board.stance.reset();
        }
        for (int k = static_cast<int>(between(0, 4)); k > 0; --k) {
            board.layers.push_back(layer());
        }
        return board;
    }

  private:
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(random_()) / 4294967296.0;
    }
    bool chance(double share) { return between(0, 1) < share; }
    Range along() { return {-half_ * between(0.3, 1.2), half_ * between(0.3, 1.2)}; }

    vrid::Planform planform() {
        const double kind = between(0, 1);
        if (kind < 0.75) {
            const double waist = between(0.22, 0.28);
            return vrid::parametric_planform({between(0.8, 1.3), waist, waist + between(0, 0.06),
                                              waist + between(0, 0.06), between(-0.05, 0.05),
                                              between(0.08, 0.35), between(0.06, 0.3),
                                              between(0.2, 0.9), between(0.2, 0.9)});
        }
        if (kind < 0.85) {
            return vrid::rectangle_planform(between(0.2, 1.2), between(0.05, 0.3));
        }
        const double shift = between(-0.06, 0.06);
        return vrid::polygon_planform(
            {{-0.5, -0.12}, {0.5, -0.12}, {0.5 + shift, 0.12}, {-0.5 + shift, 0.12}},
            between(0.3, 0.9));
    }

    void core(Board& board) {
        board.core->thickness.x.clear();
        const int n = static_cast<int>(between(2, 14));
        double x = -1.35 * half_;
        for (int k = 0; k < n; ++k) {
            board.core->thickness.x.push_back(x);
            x += between(0.3, 1) * 4 * half_ / n;
        }
        board.core->thickness.value.assign(static_cast<std::size_t>(n), 5e-3);
        if (chance(0.3)) {
            board.core->thickness.interpolation = vrid::Interpolation::linear;
        }
    }

    void bands(Board& board) {
        board.edge->width = between(1.5e-3, 3e-3);
        board.edge->x = chance(0.5) ? std::optional<Range>(along()) : std::nullopt;
        if (chance(0.4)) {
            board.edge->flange.reset();
        }
        if (chance(0.3)) {
            board.edge.reset();
        }
        board.sidewall->width = between(4e-3, 15e-3);
        if (chance(0.3)) {
            board.sidewall.reset();
        }
    }

    vrid::Layer layer() {
        vrid::Layer layer;
        layer.name = "patch";
        layer.mirror = chance(0.7);
        const double kind = between(0, 1);
        if (kind < 0.2) {
            layer.zone.x = along();
        } else if (kind < 0.4) {
            const double y = between(-0.09, 0.09);
            layer.zone.y = Range{y, y + between(0.01, 0.06)};
            layer.zone.x = along();
        } else if (kind < 0.5) {
            const double inner = between(0, 0.02);
            layer.zone.outline = Range{inner, inner + between(0.005, 0.05)};
        } else {
            const double angle = between(-3.14, 3.14);
            const double length = between(0.1, 0.6);
            const Eigen::Vector2d from(between(-1.1, 1.1) * half_, between(-0.12, 0.12));
            layer.zone.ribbon = vrid::Ribbon{
                from, from + length * Eigen::Vector2d(std::cos(angle), std::sin(angle)),
                between(0.015, 0.06)};
        }
        return layer;
    }

    std::mt19937 random_;
    double half_ = 0;
};

} // namespace

TEST_CASE("random boards are meshed soundly, follow their lines or say which not") {
    constexpr int boards = 150;
    int refused = 0;
    int noted = 0;
    for (unsigned seed = 0; seed < boards; ++seed) {
        INFO("seed " << seed);
        const Board board = RandomBoards(seed).next();
        vrid::MeshOptions options;
        options.geometry_degree = 4;
        try {
            const vrid::Mesh mesh = mesh_planform(board, options);
            CHECK(mesh.min_scaled_jacobian > 0.1);
            CHECK(euler_characteristic(mesh) == 1);
            CHECK(sides_agree(mesh));
            CHECK(outline_area(mesh) == Approx(area(board.planform)).epsilon(1e-5));
            CHECK(smallest_jacobian(mesh, 3) > 0);
            if (mesh.notes.empty()) {
                CHECK(straddling_quads(board, options, mesh) == 0);
            }
            noted += mesh.notes.empty() ? 0 : 1;
        } catch (const vrid::SolveError& error) {
            UNSCOPED_INFO(error.what());
            ++refused;
        }
    }
    CHECK(refused <= boards / 50);
    CHECK(noted <= boards / 4);
    WARN(boards << " random boards: " << noted << " with notes, " << refused << " refused");
}
