#include "io/live/board_values.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/read/read_board.hpp"
#include "io/write/units.hpp"

using namespace vrid;

namespace {

/// \param thickness [mm]
Board strip(const std::string& thickness = "7.0") {
    const std::string text = R"(format = 1
name = "strip"
[planform]
rectangle_mm = [300, 40]
running_length_mm = 240
[core]
interpolation = "linear"
thickness_mm = [[-150, )" + thickness +
                             "], [150, " + thickness + R"(]]
strips = [ { material = "poplar", width_mm = 12 } ]
[[layer]]
name = "core"
core = true
)";
    return read_board_text({text, "strip.toml", ""}, load_material_library());
}

StudyResult study(const Board& board, const char* bench_case) {
    StudyOptions options;
    options.cases = {bench_case};
    return run_study(board, options);
}

double middle_x(const Json& cell) {
    return (cell[1].get<double>() + cell[3].get<double>() + cell[5].get<double>() +
            cell[7].get<double>()) /
           4;
}

double area(const Json& cell) { // half the cross product of the diagonals [mm2]
    const auto at = [&](int i) { return cell[std::size_t(i)].get<double>(); };
    return std::abs((at(5) - at(1)) * (at(8) - at(4)) - (at(7) - at(3)) * (at(6) - at(2))) / 2;
}

} // namespace

TEST_CASE("the cells of centre-flex are deepest under the force, by its inverse stiffness") {
    const StudyResult flex = study(strip(), "centre-flex");
    const Json cells = motion_json(strip(), flex, false)["cells"];
    const double stiffness = to_bench(flex.cases.front().numbers.front().quantity).value; // N/mm
    double deepest = 0, whole = 0;
    for (const Json& cell : cells) {
        deepest = std::max(deepest, cell[0].get<double>());
        whole += area(cell);
    }
    CHECK(deepest == Approx(1 / stiffness).epsilon(0.03)); // the mean of a cell, not its edge
    CHECK(whole == Approx(300 * 40).epsilon(1e-4));
}

TEST_CASE("the cells of full-twist turn by one degree over the running length") {
    // so thin that the free edges, where the section shears, are a hundredth of the width
    const Board thin = strip("0.5");
    const Json cells = motion_json(thin, study(thin, "full-twist"), true)["cells"];
    double sum = 0, whole = 0;
    for (const Json& cell : cells) {
        if (std::abs(middle_x(cell)) < 120) { // between the held line and the turned one
            sum += cell[0].get<double>() * area(cell);
            whole += area(cell);
        }
    }
    CHECK(sum / whole == Approx(1 / 0.240).epsilon(0.02)); // [deg/m]
}

TEST_CASE("sanding the whole core by the cells is what its thickness scale does") {
    const BoardNumbers found =
        board_numbers(strip(), {{NumberId::Kind::bench_case, "full-twist"}}, [] {
            NumbersOptions options;
            options.densities = true;
            return options;
        }());
    const Json sanding = sanding_json(found);
    constexpr double thickness = 7.0; // [mm]
    double all = 0;
    for (const Json& cell : sanding["cells"]) {
        all += cell[0].get<double>() * area(cell) / 1e4 * thickness;
    }
    double by_scale = 0;
    for (std::size_t i = 0; i < found.values.size(); ++i) {
        if (found.values[i].kind->form == DesignForm::scale) {
            const Unit unit = found.numbers.front().quantity.unit;
            by_scale = found.numbers.front().slope[Eigen::Index(i)] * bench_unit(unit).per_si;
            break;
        }
    }
    CHECK(by_scale > 0);
    CHECK(all == Approx(by_scale).epsilon(1e-3));
}
