#include "solver/case_answers.hpp"

#include <cmath>
#include <numbers>
#include <string>

#include "solver/system/loading.hpp"

namespace vrid {

std::vector<Answer> cooled_answers(Cooling cooling) {
    std::vector<Answer> answers;
    for (Eigen::Index c = 0; c < cooling.values.cols(); ++c) {
        Answer answer;
        answer.motion = cooling.motion.col(c);
        answer.residual = cooling.residual;
        for (std::size_t k = 0; k < cooling.numbers.size(); ++k) {
            const ShapeNumber& number = cooling.numbers[k];
            const double value = cooling.values(static_cast<Eigen::Index>(k), c);
            answer.numbers.push_back({number.name, {value, 0, number.unit}, number.station});
        }
        if (!cooling.shapes.empty()) {
            answer.cooled = std::make_shared<const CooledShape>(
                std::move(cooling.shapes[static_cast<std::size_t>(c)]));
        }
        answers.push_back(std::move(answer));
    }
    return answers;
}

Answer modes_answer(const PlateModel& model, int count, const ModeOptions& options) {
    const Modes modes = lowest_modes(
        model, std::vector<char>(static_cast<std::size_t>(model.unknowns()), 0), count, options);
    // frequencies are good to the square of what the shapes lack
    Answer answer{{}, modes.shape.col(0), modes.shape, modes.near, std::pow(modes.residual, 2)};
    for (int k = 0; k < count; ++k) {
        const double frequency = std::sqrt(modes.omega2(k)) / (2 * std::numbers::pi);
        answer.numbers.push_back(
            {"mode " + std::to_string(k + 1), {frequency, 0, Unit::frequency}});
    }
    double largest = 0;
    for (Eigen::Index k = comp_w; k < answer.motion.size(); k += unknowns_per_node) {
        largest = std::abs(answer.motion(k)) > std::abs(largest) ? answer.motion(k) : largest;
    }
    answer.motion /= largest;
    return answer;
}

} // namespace vrid
