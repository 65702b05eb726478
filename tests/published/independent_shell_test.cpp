// Curved and bent boards, edge hold and derivatives by the outline against an independent
// computation that shares no code with vrid: benchmarks/independent/shell_*.py, a geometrically
// exact shell of degree 4 to 6 in plain displacements with own reading of the board files, which
// stand in benchmarks/independent/boards. Its values below are from shell_answers.json there.
// Stiffness in N/mm and N m/deg, forces in N.
#include <cmath>
#include <map>

#include <catch2/catch.hpp>

#include "io/materials/design_paths.hpp"
#include "io/read/read_board.hpp"
#include "io/write/units.hpp"
#include "solver/design/board_numbers.hpp"
#include "solver/edge.hpp"
#include "solver/study.hpp"
#include "tests/places.hpp"

using namespace vrid;

namespace {

Board board_of(const std::string& name) {
    return read_board(std::string(source_dir) + "/benchmarks/independent/boards/" + name + ".toml",
                      MaterialLibrary{});
}

double shown(const Quantity& quantity) {
    return quantity.value * bench_unit(quantity.unit).per_si;
}

double number_of(const std::vector<NamedQuantity>& numbers, const std::string& name) {
    for (const NamedQuantity& one : numbers) {
        if (one.name == name) {
            return shown(one.quantity);
        }
    }
    FAIL("no " << name);
    return 0;
}

} // namespace

TEST_CASE("curved boards meet an independent shell: every bench case at rest within 0.05 %") {
    const std::map<std::string, std::map<std::string, double>> table{
        {"ibis",
         {{"centre-flex", 8.37665},
          {"nose-flex", 36.8005},
          {"tail-flex", 18.6129},
          {"nose-twist", 4.93721},
          {"tail-twist", 3.22218},
          {"stance-twist", 6.67343},
          {"full-twist", 0.698897}}},
        {"tern",
         {{"centre-flex", 7.20372},
          {"nose-flex", 28.5026},
          {"tail-flex", 35.3355},
          {"nose-twist", 9.6833},
          {"tail-twist", 11.1139},
          {"stance-twist", 9.78364},
          {"full-twist", 1.85936}}},
    };
    for (const auto& [name, stiffness] : table) {
        StudyOptions options;
        for (const auto& [bench, value] : stiffness) {
            options.cases.push_back(bench);
        }
        for (const CaseResult& one : run_study(board_of(name), options).cases) {
            CAPTURE(name, one.name);
            CHECK(shown(one.numbers.front().quantity) ==
                  Approx(stiffness.at(one.name)).epsilon(5e-4));
        }
    }
}

TEST_CASE("a curved coupon bent by 30 and 60 mm meets an independent shell: forces and tangents "
          "within 0.1 %, twist stiffness while bent within 0.2 %") {
    struct Bent {
        std::string name;
        double travel;
        std::map<std::string, double> numbers;
    };
    const std::vector<Bent> table{
        {"centre-flex", 0.03, {{"force", 256.96}, {"tangent", 8.91076}}},
        {"centre-flex", 0.06, {{"force", 539.771}, {"tangent", 10.0035}}},
        {"nose-flex", 0.03, {{"force", 1188.91}, {"tangent", 44.6701}}},
        {"nose-flex", 0.06, {{"force", 2886.54}, {"tangent", 74.4808}}},
        {"stance-twist", 0.03, {{"stiffness", 6.964}}},
        {"stance-twist", 0.06, {{"stiffness", 7.58071}}},
        {"nose-twist", 0.03, {{"stiffness", 6.1905}}},
        {"nose-twist", 0.06, {{"stiffness", 9.24907}}},
    };
    StudyOptions options;
    options.cases = {"centre-flex", "nose-flex", "nose-twist", "stance-twist"};
    options.bend = {0.03, 0.06};
    const StudyResult study = run_study(board_of("ibis"), options);
    for (const Bent& expected : table) {
        bool met = false;
        for (const BentCase& one : study.bent) {
            if (one.name != expected.name || std::abs(one.travel - expected.travel) > 1e-9) {
                continue;
            }
            met = true;
            for (const auto& [number, value] : expected.numbers) {
                CAPTURE(one.name, one.travel, number);
                const double bound = number == "stiffness" ? 2e-3 : 1e-3;
                CHECK(number_of(one.numbers, number) == Approx(value).epsilon(bound));
            }
        }
        CHECK(met);
    }
}

TEST_CASE("a curved board on its edge meets an independent shell with contact inside its energy "
          "within 1 %") {
    const std::map<std::string, double> table{
        {"peak", 2.78133},
        {"contact_length", 1098.36},
        {"effective_length", 949.368},
        {"max_depth", 0.745832},
        {"loss_nose", 2.47272},
        {"loss_tail", 2.54097},
        {"roll_moment_front", 74.787},
        {"roll_moment_rear", 78.4438},
    };
    EdgeOptions options;
    options.bars = false;
    const EdgeResult result =
        run_edge(board_of("tern"), {{Side::left, std::atan(1.0), 1200, 5e9, 0.5}}, options);
    REQUIRE(result.conditions.size() == 1);
    for (const auto& [number, value] : table) {
        CAPTURE(number);
        CHECK(number_of(result.conditions.front().numbers, number) == Approx(value).epsilon(1e-2));
    }
}

TEST_CASE("derivatives by the outline and the stance on a rest shape meet differences of whole "
          "independent solves within 0.3 % of the largest") {
    const Board board = board_of("tern");
    const std::map<std::string, std::map<std::string, double>> table{
        // per mm
        {"centre-flex",
         {{"planform.nose_width_mm", 0.0021603},
          {"planform.running_length_mm", -0.021673},
          {"planform.tail_width_mm", 0.001332},
          {"planform.waist_width_mm", 0.025964},
          {"planform.nose_length_mm", 1.3857e-06},
          {"stance.foot_length_mm", -1.4872e-07},
          {"stance.setback_mm", 2.2271e-07},
          {"stance.width_mm", -1.4869e-07}}},
        {"full-twist",
         {{"planform.nose_width_mm", 0.0017499},
          {"planform.running_length_mm", -0.003995},
          {"planform.tail_width_mm", 0.001646},
          {"planform.waist_width_mm", 0.0047806},
          {"planform.nose_length_mm", 6.9076e-05},
          {"stance.foot_length_mm", -1.1665e-07},
          {"stance.setback_mm", 1.463e-07},
          {"stance.width_mm", -1.1648e-07}}},
        {"nose-flex",
         {{"planform.nose_width_mm", 0.065549},
          {"planform.running_length_mm", -0.20336},
          {"planform.tail_width_mm", -0.012317},
          {"planform.waist_width_mm", 0.056928},
          {"planform.nose_length_mm", 7.039e-06},
          {"stance.foot_length_mm", 0.11323},
          {"stance.setback_mm", -0.22647},
          {"stance.width_mm", 0.11323}}},
        {"nose-twist",
         {{"planform.nose_width_mm", 0.044472},
          {"planform.running_length_mm", -0.049821},
          {"planform.tail_width_mm", -0.0056556},
          {"planform.waist_width_mm", 0.026009},
          {"planform.nose_length_mm", 0.0015716},
          {"stance.foot_length_mm", 0.022451},
          {"stance.setback_mm", -0.044903},
          {"stance.width_mm", 0.022451}}},
        {"stance-twist",
         {{"planform.nose_width_mm", 0.0023578},
          {"planform.running_length_mm", -0.00030582},
          {"planform.tail_width_mm", 0.0017969},
          {"planform.waist_width_mm", 0.063793},
          {"planform.nose_length_mm", 1.8671e-07},
          {"stance.foot_length_mm", 0.03519},
          {"stance.setback_mm", -8.7899e-05},
          {"stance.width_mm", -0.03519}}},
    };
    NumbersOptions options;
    std::vector<NumberId> requests;
    for (const auto& [bench, slopes] : table) {
        requests.push_back({NumberId::Kind::bench_case, bench});
    }
    for (const auto& [path, value] : table.begin()->second) {
        options.lines.push_back({find_design(board, path)->id, {}});
    }
    const BoardNumbers found = board_numbers(board, requests, options);
    std::size_t number = 0;
    for (const auto& [bench, slopes] : table) {
        double largest = 0;
        for (const auto& [path, value] : slopes) {
            largest = std::max(largest, std::abs(value));
        }
        const double per_si = bench_unit(found.numbers[number].quantity.unit).per_si;
        for (const auto& [path, value] : slopes) {
            const Eigen::MatrixXd slope = slopes_by(found, {find_design(board, path)->id});
            CAPTURE(bench, path);
            CHECK(std::abs(slope(static_cast<Eigen::Index>(number), 0) * per_si * 1e-3 - value) <
                  3e-3 * largest);
        }
        ++number;
    }
}
