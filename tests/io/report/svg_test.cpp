#include "io/report/svg.hpp"

#include <cmath>

#include <catch2/catch.hpp>

#include "io/report/axis.hpp"
#include "io/report/report.hpp"

using namespace vrid;
using Catch::Contains;

TEST_CASE("names from files cannot break out of the markup") {
    CHECK(escaped("<b a=\"1\">&") == "&lt;b a=&quot;1&quot;&gt;&amp;");
    Svg svg(10, 5);
    svg.text(1, 2, "</svg><script>");
    svg.rectangle(0, 0, 1, 1, "x", "<tip>");
    const std::string markup = svg.markup("id", "<title>", "a & b");
    CHECK(markup.find("<script>") == std::string::npos);
    CHECK_THAT(markup, Contains("<title>&lt;tip&gt;</title>") && Contains("a &amp; b"));
}

TEST_CASE("a picture tells its name and description to a screen reader") {
    const std::string markup = Svg(100, 50).markup("p1", "Planform", "From above.");
    CHECK_THAT(markup, Contains("role=\"img\"") && Contains("aria-labelledby=\"p1-t p1-d\"") &&
                           Contains("<title id=\"p1-t\">Planform</title>") &&
                           Contains("<desc id=\"p1-d\">From above.</desc>") &&
                           Contains("viewBox=\"0 0 100 50\""));
}

TEST_CASE("coordinates have two decimals at most and no trailing zeros") {
    CHECK(px(12.3456) == "12.35");
    CHECK(px(12.30) == "12.3");
    CHECK(px(-0.0001) == "0");
    CHECK(px(100) == "100");
}

TEST_CASE("a simplified line passes every point that it leaves out within the tolerance") {
    Points line;
    for (int i = 0; i <= 400; ++i) {
        const double x = i * 0.5;
        line.emplace_back(x, 30 * std::sin(x / 20));
    }
    const Points few = simplified(line, 0.2);
    CHECK(few.size() < 60);
    CHECK(few.front() == line.front());
    CHECK(few.back() == line.back());
    double worst = 0;
    std::size_t part = 0;
    for (const auto& [x, y] : line) {
        while (few[part + 1].first < x) {
            ++part;
        }
        const auto& [x0, y0] = few[part];
        const auto& [x1, y1] = few[part + 1];
        const double length = std::hypot(x1 - x0, y1 - y0);
        worst = std::max(worst, std::abs((y - y0) * (x1 - x0) - (x - x0) * (y1 - y0)) / length);
    }
    CHECK(worst <= 0.2);
    CHECK(simplified({{0, 0}, {1, 0}, {2, 0}}, 0.1).size() == 2);
}

TEST_CASE("ticks are round numbers within the axis, its ends among them") {
    CHECK(ticks(0, 1, 4) == std::vector<double>{0, 0.5, 1});
    CHECK(ticks(-730, 730, 9).front() == -600);
    CHECK(tick_text(0.5, 0.05) == "0.50");
    CHECK(tick_text(-200, 200) == "-200");
}

TEST_CASE("a folded table has the curves' values at even stations, nothing outside them") {
    const Curve rising{"a", {0, 10, 20}, {0, 1, 4}};
    const Curve shorter{"b", {5, 20}, {7, 7}};
    CHECK(value_at(rising, 15) == Approx(2.5));
    CHECK(std::isnan(value_at(shorter, 0)));
    const DataTable table = curve_table("c", "mm", {rising, shorter});
    CHECK(table.columns == std::vector<std::string>{"x, mm", "a", "b"});
    CHECK(table.rows.front() == std::vector<std::string>{"0", "0.000", ""});
    CHECK(table.rows.back() == std::vector<std::string>{"20", "4.000", "7.000"});
    CHECK_THAT(folded(table),
               Contains("<details><summary>Table: c, mm</summary>") &&
                   Contains("<th scope=\"row\">20</th><td>4.000</td><td>7.000</td>"));
}

TEST_CASE("what lies at a place that is no number is not drawn") {
    Svg svg(10, 10);
    const double none = std::nan("");
    svg.line(0, 0, none, 1, "a");
    svg.rectangle(0, 0, none, 1, "b");
    svg.circle(none, 1, 1, "c");
    svg.text(1, none, "d");
    svg.polyline({{0, 1}, {none, 2}, {3, 4}}, "e");
    const std::string picture = svg.markup("i", "t", "d");
    CHECK(picture.find("nan") == std::string::npos);
    CHECK_THAT(picture, Contains("points=\"0,1 3,4\"") && !Contains("<line") &&
                            !Contains("<rect") && !Contains("<circle") && !Contains("<text"));
}
