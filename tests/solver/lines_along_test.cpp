// Deflection and twist between mesh lines and at the tips, against the mesh lines' own.
#include "solver/lines_along.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "solver/study.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

// Straight between the stations beside x.
double along_at(const LinesAlong& lines, const std::vector<double>& values, double x) {
    const auto above =
        static_cast<std::size_t>(std::ranges::upper_bound(lines.x, x) - lines.x.begin());
    const double share = (x - lines.x[above - 1]) / (lines.x[above] - lines.x[above - 1]);
    return values[above - 1] * (1 - share) + values[above] * share;
}

} // namespace

TEST_CASE("lines along a board run from tip to tip, through what the mesh lines have") {
    const Board board = example("nh-157-biax");
    StudyOptions options;
    options.cases = {"nose-flex", "nose-twist", "free-modes"};
    options.degree = 2;
    const StudyResult study = run_study(board, options);
    constexpr double step = 1e-3;
    const LinesAlong lines = lines_along(board.planform, study, step);
    const auto [tail, nose] = x_extent(board.planform);
    CHECK(lines.x.front() == Approx(tail + end_of_lines));
    CHECK(lines.x.back() == Approx(nose - end_of_lines));
    for (std::size_t i = 0; i < study.cases.size(); ++i) {
        const CaseResult& one = study.cases[i];
        CAPTURE(one.name);
        REQUIRE(lines.deflection[i].size() == lines.x.size());
        double largest = 0;
        double steepest = 0;
        for (std::size_t k = 0; k < one.deflection.size(); ++k) {
            largest = std::max(largest, std::abs(one.deflection[k]));
            steepest = std::max(steepest, std::abs(one.twist[k]));
        }
        for (std::size_t k = 0; k < one.deflection.size(); ++k) {
            const double x = study.mesh.lines[k].x;
            CHECK(std::abs(along_at(lines, lines.deflection[i], x) - one.deflection[k]) <=
                  1e-3 * (largest + 0.1 * steepest)); // of a twist: its motion at the outline
            if (one.name == "nose-twist") {
                CHECK(std::abs(along_at(lines, lines.twist[i], x) - one.twist[k]) <=
                      3e-3 * steepest);
            }
        }
    }
    // Beyond the loaded line nothing bends the nose: it goes on straight.
    const auto contact = board.planform.running_length / 2;
    const auto& flex = lines.deflection[0];
    const double slope =
        (along_at(lines, flex, contact + 0.15) - along_at(lines, flex, contact + 0.1)) / 0.05;
    CHECK(flex.back() ==
          Approx(along_at(lines, flex, contact + 0.15) + slope * (lines.x.back() - contact - 0.15))
              .epsilon(5e-3));
}

TEST_CASE("lines along a board lie a centimetre apart, on a short piece closer") {
    const auto step_of = [](double length) {
        return line_step(rectangle_planform(length, 0.25 * length));
    };
    CHECK(step_of(1.57) == 0.01);
    CHECK(step_of(0.6) == Approx(0.01));
    CHECK(step_of(0.06) == Approx(0.001));
}
