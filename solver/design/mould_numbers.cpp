#include "solver/design/mould_numbers.hpp"

#include <algorithm>

#include "solver/cooling/mould.hpp"
#include "solver/design/shape_change.hpp"

namespace vrid {

namespace {

// [m]: what it cuts off is some 1e-10 of a slope between stations ten millimetres apart.
constexpr double mould_step = 1e-6;

bool is_of_mould_alone(const LineValue& line) {
    const auto of_mould = [](const DesignId& id) {
        return id.kind->property == DesignProperty::mould_station;
    };
    return of_mould(line.id) && std::ranges::all_of(line.carry, of_mould);
}

} // namespace

double shape_value(const Board& board, const NumberId& request, double cooled) {
    return request.bench_case == "mould"     ? wanted_camber(board) - cooled
           : request.bench_case == "pressed" ? mould_rise(board, request.shape_number) + cooled
                                             : cooled;
}

std::vector<LineValue> of_mould(const std::vector<LineValue>& lines) {
    std::vector<LineValue> some = lines;
    std::erase_if(some, [](const LineValue& line) { return !is_of_mould_alone(line); });
    return some;
}

std::vector<LineValue> moving(const std::vector<LineValue>& lines) {
    std::vector<LineValue> some = lines;
    std::erase_if(some, is_of_mould_alone);
    return some;
}

void add_mould_slopes(const Board& board, const std::vector<LineValue>& lines,
                      BoardNumbers& numbers) {
    for (const LineValue& line : lines) {
        const ShapeChange change = shape_change(board, line, mould_step);
        const auto column = std::ranges::find(numbers.values, line.id) - numbers.values.begin();
        for (BoardNumber& number : numbers.numbers) {
            if (number.request.bench_case == "pressed") {
                const std::string& name = number.request.shape_number;
                number.slope(column) =
                    (mould_rise(*change.above, name) - mould_rise(*change.below, name)) /
                    change.width;
            }
        }
    }
}

} // namespace vrid
