#include "solver/case_bars.hpp"

#include <algorithm>

#include "solver/response/error_bar.hpp"
#include "solver/response/strain_change.hpp"

namespace vrid {

namespace {

bool is_stiffness(const Quantity& number) {
    return number.unit == Unit::bending_stiffness || number.unit == Unit::twist_stiffness;
}

// Of the cases that are held and loaded, in their order.
MatrixXd loaded_motions(const CasesAtDegree& at) {
    MatrixXd all(at.model.unknowns(), static_cast<Index>(at.answers.size()));
    Index count = 0;
    for (const Answer& answer : at.answers) {
        if (is_stiffness(answer.numbers.front().quantity)) {
            all.col(count++) = answer.motion;
        }
    }
    return all.leftCols(count);
}

// Half width of the bar of a number that no change of strains is known of.
double bar_by_change(int p, const Quantity& fine, double coarse, bool follows) {
    if (fine.unit == Unit::frequency) {
        return frequency_bar(p, fine.value, coarse, follows);
    }
    return is_place(fine) ? shape_bar(p, fine.value, coarse) : error_bar(p, fine.value, coarse);
}

} // namespace

bool is_place(const Quantity& number) {
    return number.unit == Unit::length || number.unit == Unit::angle;
}

std::vector<std::vector<NamedQuantity>> numbers_with_bars(const CasesAtDegree& coarse,
                                                          const CasesAtDegree& fine, int threads) {
    const int p = fine.model.reference.p;
    const bool follows = fine.model.mesh.notes.empty();
    const VectorXd changes = strain_change(coarse.model, loaded_motions(coarse), fine.model,
                                           loaded_motions(fine), threads);
    Index loaded = 0;
    std::vector<std::vector<NamedQuantity>> all;
    for (std::size_t i = 0; i < fine.answers.size(); ++i) {
        all.push_back(fine.answers[i].numbers);
        for (std::size_t k = 0; k < all.back().size(); ++k) {
            Quantity& number = all.back()[k].quantity;
            const double before = coarse.answers[i].numbers[k].quantity.value;
            number.error = bar_by_change(p, number, before, follows);
            if (is_stiffness(number)) {
                number.error =
                    std::max(number.error, strain_bar(p, number.value, changes(loaded++)));
            }
        }
    }
    return all;
}

} // namespace vrid
