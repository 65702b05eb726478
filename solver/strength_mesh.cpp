#include "solver/strength_mesh.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/cases/degree_run.hpp"
#include "solver/cases/foot_strip.hpp"
#include "solver/mesh_request.hpp"
#include "solver/response/station.hpp"

namespace vrid {

namespace {

constexpr double least_disc = 4e-3; // [m]

std::vector<const BenchCase*> benches(const std::vector<std::string>& names) {
    std::vector<const BenchCase*> all;
    for (const BenchCase& bench : case_table()) {
        if (contains(names, bench.info.name)) {
            all.push_back(&bench);
        }
    }
    return all;
}

// Thickness on the long axis [m].
double height_at(const Layup<double>& layup, double x) {
    const std::vector<StationPart> parts = station_parts(layup, x);
    return section(stack_laminae(layup, parts.at(part_on_axis(parts)).key,
                                 core_thickness(layup, Eigen::Vector2d(x, 0))))
        .thickness;
}

SharedPrepared on_mesh(const Board& board, const StudyOptions& study, Mesh mesh, double size) {
    return prepared_on(board, std::move(mesh), study.degree > 0 ? study.degree : 3, size,
                       case_stations(board, benches(study.cases)));
}

} // namespace

MeshOptions finer_at_clamps(const Board& board, MeshOptions mesh) {
    const Layup<double> layup = make_layup<double>(board);
    const std::vector<double> feet = foot_lines(board);
    double h = HUGE_VAL;
    for (std::size_t i = 0; i < feet.size(); ++i) {
        const double here = std::max(least_disc, height_at(layup, feet[i]));
        h = std::min(h, here);
        mesh.stations.push_back(feet[i] + (i % 2 == 0 ? -here : here));
    }
    std::ranges::sort(mesh.stations);
    std::vector<double> bands = band_distances(board);
    bands.insert(bands.end(), mesh.outline_bands.begin(), mesh.outline_bands.end());
    if (std::ranges::none_of(bands, [&](double band) { return band > h / 3 && band < 1.2 * h; })) {
        mesh.outline_bands.push_back(h);
    }
    return mesh;
}

void check_cooled(const Board& board, const std::string& cooled) {
    if (!board.cure) {
        throw InputError(cooled == "cold" ? "--cold" : "--residual",
                         "the board has no [cure], which tells the stress it comes with");
    }
}

StudyOptions strength_study_options(const Board& board, const StrengthOptions& options) {
    StudyOptions study{options};
    study.rel_error.reset();
    study.bend_as_far = options.bend_as_far;
    study.cases = options.cases;
    if (study.cases.empty()) {
        study.cases = possible_cases(board);
    }
    std::erase_if(study.cases, [](const std::string& name) {
        return std::ranges::any_of(case_table(), [&](const BenchCase& bench) {
            return bench.info.name == name && !bench.loading;
        });
    });
    if (study.cases.empty()) {
        throw InputError("--case", "only a static case has a load: name one");
    }
    if (!options.cooled.empty()) {
        check_cooled(board, options.cooled);
        study.cases.push_back(options.cooled);
    }
    study.keep_models = true;
    study.prepared = options.prepared;
    return study;
}

SharedPrepared prepare_strength(const Board& board, const StrengthOptions& options,
                                std::vector<std::string>* warnings) {
    const StudyOptions study = strength_study_options(board, options);
    const MeshOptions plain = study_mesh_options(board, study);
    const double size = study.max_size > 0 ? study.max_size : plain.max_size;
    const std::vector<const BenchCase*> cases = benches(study.cases);
    const bool clamped =
        std::ranges::any_of(cases, [](const BenchCase* bench) { return bench->needs_feet; });
    if (clamped && board.stance) {
        try {
            return on_mesh(board, study, mesh_planform(board, finer_at_clamps(board, plain)), size);
        } catch (const SolveError&) {
            if (warnings != nullptr) {
                warnings->emplace_back("the mesh could not be made finer at the clamps' corners");
            }
        }
    }
    return on_mesh(board, study, mesh_planform(board, plain), size);
}

} // namespace vrid
