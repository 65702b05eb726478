#pragma once

#include <string>
#include <vector>

#include "solver/design/board_numbers.hpp"
#include "solver/response/section_weights.hpp"

namespace vrid {

/// Terms of energy and inertia whose changes are those of numbers.
struct NumberTerms {
    std::vector<EnergyTerm> energy, inertia;
    std::vector<std::string> warnings;
};

/// Of stiffnesses and modes; equal frequencies share their mean, with a warning.
/// \param study solved with its models kept
/// Energies are those of what strains, on a rest shape not all of a mode (off_supports).
NumberTerms number_terms(const StudyResult& study, const std::vector<BoardNumber>& numbers);

/// What numbers of a study owe to the section, and what a reader of their slopes must know.
struct StudyWeights {
    SectionWeights weights; ///< one column a number
    std::vector<std::string> warnings;
};

/// The weights of stiffnesses and modes; equal frequencies share their mean, with a warning.
/// \param study solved with its models kept
StudyWeights study_weights(const Board& board, const StudyResult& study,
                           const std::vector<BoardNumber>& numbers, int threads);

/// The weights of numbers of a cooled board, all of one case.
SectionWeights cooling_weights(const Board& board, const StudyResult& study,
                               const std::vector<NumberId>& numbers, int threads);

/// The weights of some of the numbers.
SectionWeights columns_of(const SectionWeights& all, const std::vector<Eigen::Index>& columns);

/// Which of a case's numbers it is.
std::size_t number_index(const CaseResult& result, const NumberId& request);

/// Which of the study's cases gives the number.
std::size_t case_index(const StudyResult& study, const NumberId& request);

/// The bent case that gives a number, and which of its numbers it is.
const BentCase& bent_case(const StudyResult& study, const NumberId& request);
std::size_t bent_index(const BentCase& bent, const NumberId& request);
/// The column of its weights that is the number's.
std::size_t weighed_index(const BentCase& bent, const NumberId& request);

} // namespace vrid
