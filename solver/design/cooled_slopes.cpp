#include "solver/design/cooled_slopes.hpp"

#include <algorithm>
#include <utility>

#include "solver/cooling/free_forces.hpp"
#include "solver/cooling/shape_numbers.hpp"
#include "solver/design/mould_numbers.hpp"
#include "solver/design/number_requests.hpp"
#include "solver/design/study_weights.hpp"
#include "solver/system/eigenvalues.hpp"

namespace vrid {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// Above rounding, far below narrow bands (0.2 mm), in which nodes that move through a motion that
// is held strain it: by the cube of the step over the band's width.
constexpr double nudge = 5e-6; // of a length [m], of a fullness

// What is held: of each number's case the motion that strains, its temperature, its adjoint.
struct HeldShape {
    std::vector<std::string> cases; // each once
    std::vector<double> celsius;
    MatrixXd motion;             // unknowns x cases
    std::vector<std::size_t> of; // the case of each number
    MatrixXd adjoint;            // unknowns x numbers
};

HeldShape held_shape(const StudyResult& study, const std::vector<NumberId>& numbers) {
    const SolvedModel& solved = *study.solved[1];
    HeldShape held;
    held.motion.resize(solved.model.unknowns(), 0);
    held.adjoint.resize(solved.model.unknowns(), static_cast<Index>(numbers.size()));
    for (std::size_t k = 0; k < numbers.size(); ++k) {
        const std::string name = case_of(numbers[k]);
        const std::size_t bench = case_index(study, numbers[k]);
        const auto at = std::find(held.cases.begin(), held.cases.end(), name);
        held.of.push_back(static_cast<std::size_t>(at - held.cases.begin()));
        if (at == held.cases.end()) {
            held.cases.push_back(name);
            held.celsius.push_back(study.cases[bench].cooled->celsius);
            held.motion.conservativeResize(Eigen::NoChange, held.motion.cols() + 1);
            held.motion.rightCols(1) =
                straining_part(solved.model, study.prepared->trees[1], solved.motion[bench]);
        }
        held.adjoint.col(static_cast<Index>(k)) = solved.cooling_adjoint.col(
            static_cast<Index>(number_index(study.cases[bench], numbers[k])));
    }
    return held;
}

// l of each number on a model.
MatrixXd loads_of(const Board& board, const PlateModel& model,
                  const std::vector<NumberId>& numbers) {
    const std::vector<ShapeNumber> all =
        shape_numbers(board, model.rest.get(), concavity_stations(numbers));
    std::vector<ShapeNumber> wanted;
    for (const NumberId& number : numbers) {
        wanted.push_back(*std::find_if(all.begin(), all.end(), [&](const ShapeNumber& one) {
            return one.name == number.shape_number &&
                   (!one.station || *one.station == number.station);
        }));
    }
    return shape_loads(MeshPlaces(model), wanted);
}

// The numbers of a board with its mesh moved, what is held held.
VectorXd held_values(const CooledStudy& of, const HeldShape& held,
                     const std::vector<NumberId>& numbers, const Board& board, const Mesh& mesh) {
    const PlateModel& start = of.study.solved[1]->model;
    const Layup<double> layup =
        make_layup<double>(board, {}, creeps(board) ? Pace::slow : Pace::quick);
    SectionCache sections(layup);
    PlateModel model = make_model(mesh, start.reference.p, sections);
    model.rest = start.rest ? rest_shape(board) : nullptr;
    const FreeForces forces = free_forces(model, sections);
    std::vector<Resultants> held_back;
    for (const double celsius : held.celsius) {
        held_back.push_back(forces.at(celsius));
    }
    const MatrixXd lack = internal_forces(model, held.motion, of.threads) -
                          nodal_forces(model, held_back, of.threads);
    const MatrixXd loads = loads_of(board, model, numbers);
    VectorXd values(static_cast<Index>(numbers.size()));
    for (Index k = 0; k < values.size(); ++k) {
        const auto bench = static_cast<Index>(held.of[static_cast<std::size_t>(k)]);
        const double shape =
            loads.col(k).dot(held.motion.col(bench)) - held.adjoint.col(k).dot(lack.col(bench));
        values(k) = shape_value(board, numbers[static_cast<std::size_t>(k)], shape);
    }
    return values;
}

} // namespace

VectorXd cooled_line_slopes(const CooledStudy& of, const std::vector<NumberId>& numbers,
                            const LineValue& line) {
    const HeldShape held = held_shape(of.study, numbers);
    const auto difference = [&](double step) {
        const ShapeChange change = shape_change(of.board, line, step);
        const auto at = [&](const Board& board, double share) {
            return held_values(of, held, numbers, board, of.mover.moved(change, share)->mesh);
        };
        const VectorXd above = at(*change.above, change.low + change.width);
        return VectorXd((above - at(*change.below, change.low)) / change.width);
    };
    return (4 * difference(nudge) - difference(2 * nudge)) / 3;
}

} // namespace vrid
