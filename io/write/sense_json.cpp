#include "io/write/sense_json.hpp"

#include <algorithm>

namespace vrid {
namespace {

SensedNumber& number_named(SenseFindings& found, const std::string& name) {
    const auto number = std::ranges::find(found.numbers, name, &SensedNumber::name);
    must_hold(number != found.numbers.end(), "'" + name + "' is not among its numbers");
    return *number;
}

} // namespace

template <class Each, Of<SenseFindings> Given> void fields(Each& each, Given& all) {
    std::vector<StepChange> steps;
    for (const SensedNumber& number : all.numbers) {
        steps.insert(steps.end(), number.steps.begin(), number.steps.end());
    }
    each("format", all.format);
    each("program", all.program);
    each("board", all.board);
    each("edge", all.edge);
    each("numbers", all.numbers);
    each("derivatives", steps);
    each("outline", all.outline);
    each("warnings", all.warnings);
    each("caution", all.caution);
    if constexpr (!std::is_const_v<Given>) {
        for (const StepChange& step : steps) {
            number_named(all, step.of).steps.push_back(step);
        }
        for (const WidthGain& one : all.outline.value_or(FoundOutline{}).gains) {
            (void)number_named(all, one.of);
        }
    }
}

void check_part(const StepChange& one) {
    must_hold(one.step > 0, "the step of '" + one.to + "' is no step");
}

void check_part(const FoundOutline& outline) {
    must_hold(outline.at.size() == outline.outward.size(), "the outline's lists differ in length");
    for (const WidthGain& one : outline.gains) {
        must_hold(
            one.gain.size() == outline.at.size() &&
                std::ranges::all_of(one.gain, [](double gain) { return std::isfinite(gain); }),
            "the gains of '" + one.of + "' are not one a vertex");
    }
}

std::vector<double> FoundOutline::widening(const SensedNumber& number) const {
    constexpr double over = 100; // mm
    std::vector<double> percent;
    for (const WidthGain& one : gains) {
        for (const double gain : one.of == number.name ? one.gain : std::vector<double>{}) {
            percent.push_back(gain * (100 * over / number.quantity.value));
        }
    }
    return percent;
}

Json json_of(const SenseFindings& found) {
    return written(found);
}

SenseFindings read_sense(const std::string& text, const std::string& file) {
    auto found = read_whole<SenseFindings>(text, file, "derivatives");
    for (SensedNumber& number : found.numbers) {
        std::ranges::stable_sort(number.steps, [](const StepChange& a, const StepChange& b) {
            return std::abs(a.change()) > std::abs(b.change());
        });
    }
    return found;
}

} // namespace vrid
