#include "solver/design/study_weights.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solver/prepared.hpp"
#include "solver/system/eigenvalues.hpp"

namespace vrid {

namespace {

// At unit turn dk = u^T dK u; at unit force k = 1 / (f u) and dk = k^2 u^T dK u.
void add_case(const Quantity& k, const MatrixXd& motion, Index to, NumberTerms& terms) {
    const bool flex = k.unit == Unit::bending_stiffness;
    terms.energy.push_back({motion.col(0), {}, flex ? k.value * k.value : 1, to});
}

// The mode and those that cannot be told from it.
std::vector<Index> equal_modes(const std::vector<NamedQuantity>& all, Index mode) {
    constexpr double same = 1e-7; // relative
    std::vector<Index> together;
    const double f = all[static_cast<std::size_t>(mode)].quantity.value;
    for (Index i = 0; i < static_cast<Index>(all.size()); ++i) {
        if (std::abs(all[static_cast<std::size_t>(i)].quantity.value - f) <= same * f) {
            together.push_back(i);
        }
    }
    return together;
}

MatrixXd straining_part(const StudyResult& study, const MatrixXd& motion) {
    return vrid::straining_part(study.solved[1]->model, study.prepared->trees[1], motion);
}

// lambda = omega^2, x^T M x = 1: dlambda = x^T (dK - lambda dM) x.
void add_mode(const std::vector<NamedQuantity>& all, const std::vector<Index>& together,
              const MatrixXd& motion, const MatrixXd& strained, Index to, NumberTerms& terms) {
    for (const Index one : together) {
        const double omega =
            2 * std::numbers::pi * all[static_cast<std::size_t>(one)].quantity.value;
        const double factor =
            1 / (4 * std::numbers::pi * omega) / static_cast<double>(together.size());
        terms.energy.push_back({strained.col(one), {}, factor, to});
        terms.inertia.push_back({motion.col(one), {}, -factor * omega * omega, to});
    }
}

} // namespace

std::size_t case_index(const StudyResult& study, const NumberId& request) {
    const std::string name = case_of(request);
    const auto found = std::ranges::find(study.cases, name, &CaseResult::name);
    return static_cast<std::size_t>(found - study.cases.begin());
}

NumberTerms number_terms(const StudyResult& study, const std::vector<BoardNumber>& numbers) {
    const SolvedModel& solved = *study.solved[1];
    NumberTerms terms;
    MatrixXd strained; // of the modes
    for (std::size_t column = 0; column < numbers.size(); ++column) {
        const BoardNumber& number = numbers[column];
        const std::size_t bench = case_index(study, number.request);
        const auto to = static_cast<Index>(column);
        if (number.request.kind == NumberId::Kind::bench_case) {
            add_case(number.quantity, solved.motion[bench], to, terms);
            continue;
        }
        const std::vector<NamedQuantity>& modes = study.cases[bench].numbers;
        const std::vector<Index> together = equal_modes(modes, number.request.mode - 1);
        if (strained.size() == 0) {
            strained = straining_part(study, solved.motion[bench]);
        }
        add_mode(modes, together, solved.motion[bench], strained, to, terms);
        if (together.size() > 1) {
            terms.warnings.push_back("mode " + std::to_string(number.request.mode) +
                                     " is as high as another: its derivatives are their mean");
        }
    }
    return terms;
}

StudyWeights study_weights(const Board& board, const StudyResult& study,
                           const std::vector<BoardNumber>& numbers, int threads) {
    const SolvedModel& solved = *study.solved[1];
    NumberTerms terms = number_terms(study, numbers);
    StudyWeights owed;
    owed.warnings = std::move(terms.warnings);
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    owed.weights = model_places(solved.model, sections, static_cast<Index>(numbers.size()));
    add_energy(solved.model, terms.energy, threads, owed.weights);
    add_inertia(solved.model, terms.inertia, threads, owed.weights);
    return owed;
}

SectionWeights columns_of(const SectionWeights& all, const std::vector<Index>& columns) {
    return {all.stacks, all.places, all.weight(Eigen::all, columns), all.pace, all.celsius};
}

const BentCase& bent_case(const StudyResult& study, const NumberId& request) {
    return *std::ranges::find_if(study.bent, [&](const BentCase& one) {
        return one.name == request.bench_case && one.travel == request.travel;
    });
}

std::size_t bent_index(const BentCase& bent, const NumberId& request) {
    const auto found = std::ranges::find(bent.numbers, request.bent_number, &NamedQuantity::name);
    return static_cast<std::size_t>(found - bent.numbers.begin());
}

std::size_t weighed_index(const BentCase& bent, const NumberId& request) {
    const auto found = std::ranges::find(bent.weighed, request.bent_number);
    return static_cast<std::size_t>(found - bent.weighed.begin());
}

std::size_t number_index(const CaseResult& result, const NumberId& request) {
    if (request.kind != NumberId::Kind::shape) {
        return static_cast<std::size_t>(std::max(request.mode, 1) - 1);
    }
    const bool at_station = request.shape_number == "concavity";
    const auto found = std::ranges::find_if(result.numbers, [&](const NamedQuantity& number) {
        return number.name == request.shape_number &&
               (!at_station || number.station == request.station);
    });
    return static_cast<std::size_t>(found - result.numbers.begin());
}

// K u = f, r = l^T u, K a = l: dr = a^T (df - dK u).
SectionWeights cooling_weights(const Board& board, const StudyResult& study,
                               const std::vector<NumberId>& numbers, int threads) {
    const SolvedModel& solved = *study.solved[1];
    const std::size_t bench = case_index(study, numbers.front());
    const bool creeping = creeps(board);
    const Layup<double> layup = make_layup<double>(board, {}, creeping ? Pace::slow : Pace::quick);
    SectionCache sections(layup);
    SectionWeights weights =
        model_places(solved.model, sections, static_cast<Index>(numbers.size()));
    weights.pace = creeping ? Pace::slow : Pace::quick;
    weights.celsius = study.cases[bench].cooled->celsius;
    const VectorXd u = straining_part(study, solved.motion[bench]);
    std::vector<EnergyTerm> energy;
    std::vector<EnergyTerm> free;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        const auto column = static_cast<Index>(number_index(study.cases[bench], numbers[i]));
        // the mould's camber is what is wanted minus what comes
        const double sign = numbers[i].bench_case == "mould" ? -1 : 1;
        const VectorXd adjoint = solved.cooling_adjoint.col(column);
        energy.push_back({adjoint, u, -sign, static_cast<Index>(i)});
        free.push_back({adjoint, {}, sign, static_cast<Index>(i)});
    }
    add_energy(solved.model, energy, threads, weights);
    add_free_work(solved.model, free, threads, weights);
    return weights;
}

} // namespace vrid
