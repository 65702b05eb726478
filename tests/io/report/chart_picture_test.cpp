// Charts read back as a reader does: by the numbers at their axes.
#include <catch2/catch.hpp>

#include "io/report/report.hpp"
#include "tests/io/report/drawn_svg.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

Chart two_curves() {
    Chart chart;
    chart.title = "Thickness";
    chart.unit = "mm";
    chart.curves = {{"board", {-700, 0, 650}, {4, 9.5, 3}},
                    {"core", {-500, 100}, {-1.5, std::nan("")}}};
    return chart;
}

} // namespace

TEST_CASE("every point of a curve stands where the axes' numbers say; what is not known is left "
          "out") {
    const std::string picture = chart_picture(two_curves(), "c");
    const Ruler x = ruler(picture, false);
    const Ruler y = ruler(picture, true);
    const auto board = drawn(picture, "polyline", "curve C0").at(0).points();
    REQUIRE(board.size() == 3);
    const std::vector<std::pair<double, double>> values{{-700, 4}, {0, 9.5}, {650, 3}};
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(x.at(board[i].first) == Approx(values[i].first).margin(0.02));
        CHECK(y.at(board[i].second) == Approx(values[i].second).margin(0.002));
    }
    const auto core = drawn(picture, "polyline", "curve C1").at(0).points();
    REQUIRE(core.size() == 1);
    CHECK(y.at(core[0].second) == Approx(-1.5).margin(0.002));
    CHECK(drawn(picture, "line", "zero").size() >= 1);
    CHECK_THAT(picture, Contains("Curves over the station x in mm, tail to nose: board, core. From "
                                 "-1.50 to 9.50 mm."));
    CHECK(drawn_text(picture, "Thickness, mm").word("class") == "head");
}

TEST_CASE("a curve above zero is drawn from zero up, unless it need not be") {
    Chart chart = two_curves();
    chart.curves = {{"frequency", {0, 10}, {100, 104}}};
    std::string picture = chart_picture(chart, "c");
    const auto bottom = [](const std::string& drawing) {
        return ruler(drawing, true).at(26 + 120.0); // the foot of the plot
    };
    CHECK(bottom(picture) == Approx(0).margin(0.05));
    CHECK(drawn(picture, "text", "label").empty()); // one curve needs no key
    chart.from_zero = false;
    picture = chart_picture(chart, "c");
    CHECK(bottom(picture) == Approx(100).margin(0.05));
}

TEST_CASE("marks stand at their stations, and a wider extent makes room at both ends") {
    Chart chart = two_curves();
    chart.marks = {-567.5, 567.5};
    chart.extent = {-800, 900};
    const std::string picture = chart_picture(chart, "c");
    const Ruler x = ruler(picture, false);
    const auto marks = drawn(picture, "line", "contact");
    REQUIRE(marks.size() == 2);
    CHECK(x.at(marks[0].number("x1")) == Approx(-567.5).margin(0.02));
    CHECK(x.at(marks[1].number("x2")) == Approx(567.5).margin(0.02));
    CHECK(x.at(54) == Approx(-800).margin(0.02)); // the ends of the axis
    CHECK(x.at(1000 - 14) == Approx(900).margin(0.02));
    chart.curves.clear();
    CHECK(chart_picture(chart, "c").empty());
}

TEST_CASE("a board's curves are thickness, stiffnesses, and each case's lines by its unit") {
    ReportRow row;
    row.stations.columns = {"x_mm", "thickness_mm", "EI_Nm2", "nose-flex_deflection_mm",
                            "nose-twist_twist_deg"};
    row.stations.values = {{-500, 500}, {8, 9}, {100, 200}, {0.5, 0.25}, {-1, 1}};
    row.numbers.resize(2);
    row.numbers[0].name = "nose-flex";
    row.numbers[0].quantity.unit = "N/mm";
    row.numbers[1].name = "nose-twist";
    row.numbers[1].quantity.unit = "N m/deg";
    std::string pictures = curve_pictures(row, "p");
    CHECK_THAT(pictures, Contains(">Thickness, mm<") && Contains(">Bending stiffness EI, N m2<") &&
                             !Contains("Torsional stiffness") &&
                             Contains(">Deflection lines at 1 N, mm<") &&
                             Contains(">Twist lines at 1 deg, deg<"));
    CHECK_THAT(pictures, Contains("<th scope=\"row\">500</th><td>0.2500</td>"));
    row.sections.columns = {"x_mm", "EI_Nm2"}; // finer, and then alone
    row.sections.values = {{-500, 0, 500}, {100, 900, 200}};
    pictures = curve_pictures(row, "p");
    CHECK_THAT(pictures, !Contains(">Thickness, mm<") && Contains("From 0.00 to 900 N m2"));
    row.lines.columns = {"x_mm", "nose-flex_deflection_mm"}; // tip to tip, and then alone
    row.lines.values = {{-780, 0, 785}, {0.75, 0.25, 1.5}};
    pictures = curve_pictures(row, "p");
    CHECK_THAT(pictures, Contains("nose-flex. From 0.00 to 1.50 mm") &&
                             !Contains(">Twist lines at 1 deg, deg<"));
    CHECK(curve_pictures({}, "p").empty());
}
