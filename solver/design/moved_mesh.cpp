#include "solver/design/moved_mesh.hpp"

#include <algorithm>
#include <utility>

#include "mesh/mesh_lines.hpp"
#include "mesh/quality.hpp"

namespace vrid {

namespace {

SharedPrepared with_mesh(const Prepared& prepared, Mesh mesh, const Board& board,
                         const StationsOf& stations) {
    auto moved = std::make_shared<Prepared>(prepared);
    moved->mesh = std::move(mesh);
    moved->stations = stations(board);
    moved->lines = mesh_lines(board);
    return moved;
}

double length_of(const Mesh& mesh, std::size_t edge) {
    const auto [a, b] = mesh.edges[edge];
    return (mesh.vertices[static_cast<std::size_t>(b)] - mesh.vertices[static_cast<std::size_t>(a)])
        .norm();
}

bool is_bad(const Mesh& mesh, const Mesh& start) {
    constexpr double least_sine = 0.6;   // of the start's
    constexpr double least_length = 0.4; // of the start's
    const WorstPlace now = worst_place(mesh);
    const WorstPlace was = worst_place(start);
    if (now.corner_sine < least_sine * was.corner_sine ||
        now.inner_sine < least_sine * was.inner_sine) {
        return true;
    }
    for (std::size_t edge = 0; edge < mesh.edges.size(); ++edge) {
        if (length_of(mesh, edge) < least_length * length_of(start, edge)) {
            return true;
        }
    }
    return false;
}

} // namespace

MeshMover::MeshMover(SharedPrepared prepared, const Board& board, StationsOf stations)
    : prepared_(std::move(prepared)), stations_(std::move(stations)),
      motion_(prepared_->mesh, board, meant_lines(board, stations_)) {}

SharedPrepared MeshMover::moved(const ShapeChange& change, double share) const {
    const MeshVelocity velocity = velocity_of(motion_, change, stations_);
    return with_mesh(*prepared_, moved_mesh(prepared_->mesh, velocity, share),
                     share <= change.low ? *change.below : *change.above, stations_);
}

SharedPrepared led_mesh(const SharedPrepared& prepared, const std::vector<const Board*>& path,
                        const StationsOf& stations) {
    Mesh mesh = prepared->mesh;
    for (std::size_t k = 1; k < path.size(); ++k) {
        const Board& from = *path[k - 1];
        const Board& to = *path[k];
        const MeshLines lines_from = meant_lines(from, stations);
        const MeshLines lines_to = meant_lines(to, stations);
        const MeshMotion motion(mesh, from, lines_from);
        mesh = moved_mesh(mesh, motion.velocity({from, to, lines_from, lines_to, 1}), 1);
        if (is_bad(mesh, prepared->mesh)) {
            return nullptr;
        }
        mesh = moved_mesh(mesh, MeshMotion(mesh, to, lines_to).onto_lines(), 1);
    }
    return with_mesh(*prepared, std::move(mesh), *path.back(), stations);
}

} // namespace vrid
