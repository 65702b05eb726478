#include "io/read/read_board.hpp"

#include <array>
#include <cmath>
#include <cstdio>
#include <numbers>

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"
#include "tests/mesh/board/drawn_shapes.hpp"
#include "tests/places.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

std::string csv_of(const DrawnOutline& outline, int decimals) {
    std::string text = "x_mm,y_mm\n";
    for (const Eigen::Vector2d& p : outline.points) {
        std::array<char, 80> row{};
        std::snprintf(row.data(), row.size(), "%.*f,%.*f\n", decimals, p.x() * 1e3, decimals,
                      p.y() * 1e3);
        text += row.data();
    }
    return text;
}

// A plate of steel whose outline is drawn: what check and solve would read.
class DrawnFiles {
  public:
    DrawnFiles() : folder_("drawn") {}
    NamedBoard read(const std::string& csv, const std::string& keys = "") {
        (void)folder_.write("o.csv", csv);
        const std::string text =
            "format = 1\nname = \"plate\"\n[planform]\noutline_csv = \"o.csv\"\n"
            "running_length_mm = 1000\n" +
            keys + "[[layer]]\nname = \"plate\"\nmaterial = \"steel\"\nthickness_mm = 2\n";
        return read_named_board({text, "board.toml", folder_.path()}, shipped_library());
    }
    std::string complaint(const std::string& csv, const std::string& keys = "") {
        return complaint_of([&] { (void)read(csv, keys); });
    }

  private:
    TestFolder folder_;
};

DrawnOutline half_ellipse(int points) {
    DrawnOutline half;
    for (int k = 0; k < points; ++k) {
        const double angle = std::numbers::pi * k / (points - 1);
        half.points.emplace_back(0.75 * std::cos(angle), 0.14 * std::sin(angle));
    }
    half.corner.assign(half.points.size(), false);
    return half;
}

} // namespace

TEST_CASE("half an outline is mirrored when the file says so, and refused when it does not") {
    DrawnFiles files;
    const std::string csv = csv_of(half_ellipse(80), 3);
    const NamedBoard board = files.read(csv, "half = true\n");
    CHECK(area(board.board.planform) == Approx(std::numbers::pi * 0.75 * 0.14).epsilon(1e-4));
    CHECK(board.drawn.value().points == 158);
    CHECK(board.warnings.empty());
    CHECK_THAT(files.complaint(csv), Contains("board.toml:4:15: planform.outline_csv: all points "
                                              "lie on one side") &&
                                         Contains("half = true"));
    CHECK_THAT(files.complaint(csv, "half = false\n"), Contains("all points lie on one side"));
    const std::string cut = csv.substr(0, csv.rfind("\n", csv.size() - 2) + 1); // the tail is open
    CHECK_THAT(files.complaint(cut, "half = true\n"),
               Contains("board.toml:6:8: planform.half: the half outline ends at x = -749"));
    CHECK_THAT(complaint_of([] {
                   (void)read_text_board("format = 1\nname = \"p\"\n[planform]\nrectangle_mm = "
                                         "[200, 20]\nhalf = true\noutline_tolerance_mm = 0.1\n");
               }),
               Contains("planform.half: accepted only beside outline_csv") &&
                   Contains("planform.outline_tolerance_mm: accepted only beside"));
}

TEST_CASE("points may move by half the last digit of their file, or by what the board file says") {
    DrawnFiles files;
    const Planform exact = parametric_planform(ordinary_shape(2));
    const std::string csv = csv_of(drawn(exact, 400, 0), 0);
    const DrawnFit smooth = files.read(csv).drawn.value();
    CHECK(smooth.tolerance == Approx(0.5e-3));
    CHECK(smooth.largest_move > 0.4e-3);
    CHECK(smooth.largest_move < 0.5e-3);
    const DrawnFit kept = files.read(csv, "outline_tolerance_mm = 0\n").drawn.value();
    CHECK(kept.largest_move == 0);
    const DrawnFit wide = files.read(csv, "outline_tolerance_mm = 0.8\n").drawn.value();
    CHECK(wide.tolerance == Approx(0.8e-3));
    CHECK_THAT(files.complaint(csv, "outline_tolerance_mm = -1\n"),
               Contains("board.toml:6:24: planform.outline_tolerance_mm"));
}

TEST_CASE("a spline that strays between two points warns, with the station") {
    DrawnFiles files;
    DrawnOutline half = half_ellipse(61);
    half.points.erase(half.points.begin() + 1, half.points.begin() + 9); // a gap at the nose
    const NamedBoard board = files.read(csv_of(half, 3), "half = true\n");
    REQUIRE(board.warnings.size() == 1);
    CHECK(board.warnings[0].place == "board.toml:4:15");
    CHECK_THAT(board.warnings[0].message, Contains("between two points at x = 7") &&
                                              Contains("degrees") && Contains("at 1 more place"));
}

TEST_CASE("the outline in whole millimetres that once stopped the mesher has the board's waist") {
    // the hostile drawing's own numbers: 400 points of the example, each rounded to 1 mm
    DrawnFiles files;
    const Planform exact =
        read_board(std::string(source_dir) + "/examples/nh-157-querwind/board.toml",
                   shipped_library())
            .planform;
    const Board found = files.read(csv_of(drawn(exact, 400, 0), 0)).board;
    const double waist = width_at(exact, exact.shape->waist_x);
    CHECK(width_at(found.planform, exact.shape->waist_x) == Approx(waist).margin(0.5e-3));
    for (double x = -0.4; x <= 0.4; x += 0.01) {
        CHECK(width_at(found.planform, x) == Approx(width_at(exact, x)).margin(1e-3));
        CHECK(width_at(found.planform, x) > waist - 0.5e-3);
    }
}
