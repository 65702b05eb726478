// Whole boards against an independent computation that shares no code with vrid: own reading of the
// board file, own laminate theory, conforming triangles of degree 4 in plain displacements, refined
// until two meshes agreed to 3e-5. Its board files stand in tests/published/boards, its values in
// the table below. Stiffness in N/mm and N m/deg, mass in kg.
#include <cmath>
#include <map>

#include <catch2/catch.hpp>

#include "io/read/read_board.hpp"
#include "io/write/units.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/mass.hpp"
#include "solver/study.hpp"
#include "tests/places.hpp"

using namespace vrid;

namespace {

struct Reference {
    std::string board;
    double mass, balance_mm;
    std::map<std::string, double> stiffness;
    double station_mm, EI, GJ;
};

const std::vector<Reference>& references() {
    static const std::vector<Reference> table{
        {"querwind",
         3.070267,
         1.12773,
         {{"centre-flex", 7.957402},
          {"nose-flex", 30.77142},
          {"tail-flex", 44.42332},
          {"nose-twist", 9.551360},
          {"tail-twist", 12.171275},
          {"stance-twist", 9.831846},
          {"full-twist", 1.788730}},
         450,
         99.95249,
         66.05601},
        // unbalanced fabrics, ribbons at an angle, a mirrored zone
        {"b",
         3.023915,
         8.47684,
         {{"centre-flex", 6.717056},
          {"nose-flex", 20.86068},
          {"tail-flex", 25.70866},
          {"nose-twist", 8.747982},
          {"tail-twist", 9.325892},
          {"stance-twist", 11.127388},
          {"full-twist", 1.780025}},
         255,
         222.83013,
         172.92495},
        // a sandwich coupon without edges
        {"c",
         0.0567868,
         0,
         {{"centre-flex", 36.916992},
          {"nose-flex", 177.01092},
          {"tail-flex", 177.01092},
          {"nose-twist", 2.808342},
          {"tail-twist", 2.808342},
          {"stance-twist", 3.392293},
          {"full-twist", 0.649779}},
         1,
         21.03062,
         12.28870},
        // a drawn, asymmetric outline
        {"e",
         3.083346,
         6.64820,
         {{"centre-flex", 8.549866},
          {"nose-flex", 33.12736},
          {"tail-flex", 39.29066},
          {"nose-twist", 10.482522},
          {"tail-twist", 11.671159},
          {"stance-twist", 10.869170},
          {"full-twist", 1.835149}},
         1,
         NAN,
         NAN},
    };
    return table;
}

Board board_of(const Reference& reference) {
    return read_board(std::string(source_dir) + "/tests/published/boards/" + reference.board +
                          ".toml",
                      MaterialLibrary{});
}

} // namespace

TEST_CASE(
    "every bench case of four boards meets an independent computation within the bar printed, "
    "and within 0.2 %") {
    for (const Reference& reference : references()) {
        StudyOptions flat; // as the independent computation is
        flat.flat = true;
        const StudyResult result = run_study(board_of(reference), flat);
        for (const CaseResult& one : result.cases) {
            if (reference.stiffness.count(one.name) == 0) {
                continue;
            }
            const Quantity& found = one.numbers.front().quantity;
            const double scale = bench_unit(found.unit).per_si;
            const double value = reference.stiffness.at(one.name);
            CAPTURE(reference.board, one.name);
            CHECK(std::abs(found.value * scale - value) <= found.error * scale + 3e-5 * value);
            CHECK(found.value * scale == Approx(value).epsilon(2e-3));
        }
    }
}

TEST_CASE("mass and balance point of four boards meet an independent integration to 1e-5") {
    for (const Reference& reference : references()) {
        const MassReport report = board_mass(board_of(reference));
        CAPTURE(reference.board);
        CHECK(report.mass == Approx(reference.mass).epsilon(1e-5));
        CHECK(report.x * 1e3 == Approx(reference.balance_mm).margin(5e-3));
    }
}

TEST_CASE("EI and GJ of three boards meet an independent computation to 1e-5") {
    for (const Reference& reference : references()) {
        if (std::isnan(reference.EI)) {
            continue;
        }
        const CrossSection section = cross_section(board_of(reference), reference.station_mm / 1e3);
        CAPTURE(reference.board);
        CHECK(section.EI == Approx(reference.EI).epsilon(1e-5));
        CHECK(section.GJ == Approx(reference.GJ).epsilon(1e-5));
    }
}

TEST_CASE("the six lowest free frequencies of two boards meet an independent computation to 0.03 % "
          "(rotary inertia and the first moment about the running surface counted)") {
    const std::vector<std::pair<std::string, std::vector<double>>> table{
        {"querwind", {17.347, 34.696, 35.886, 58.857, 59.327, 86.119}},
        {"b", {16.403, 34.693, 35.972, 60.702, 62.186, 94.269}}};
    for (const auto& [name, frequencies] : table) {
        StudyOptions options;
        options.cases = {"free-modes"};
        options.flat = true; // as the independent computation is
        const StudyResult result = run_study(board_of({name, 0, 0, {}, 0, 0, 0}), options);
        const auto& numbers = result.cases.front().numbers;
        REQUIRE(numbers.size() == frequencies.size());
        for (std::size_t i = 0; i < frequencies.size(); ++i) {
            CAPTURE(name, i);
            CHECK(numbers[i].quantity.value == Approx(frequencies[i]).epsilon(3e-4));
        }
    }
}
