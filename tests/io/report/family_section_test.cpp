#include <algorithm>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/report/findings.hpp"
#include "io/write/family_report.hpp"
#include "mesh/board/error.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using Catch::Contains;

namespace {

std::size_t times(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
        ++found;
    }
    return found;
}

/// A strip of 1000 x 50 mm under eight names, which have nothing in common but the board.
FamilyReport eight_sizes() {
    FamilyReport report{"<Tarn>", "abc", {}, "sizes"};
    for (int i = 0; i < 8; ++i) {
        SizeAnswer size{std::to_string(140 + i), 50 + i, i != 3, {}, {}, {}};
        size.board = tests::example("coupon-sandwich");
        size.targets = {{"nose-twist", 8, {9, 0.02, Unit::twist_stiffness}, i != 3, ""}};
        size.values = {{"core.thickness_mm[0]", 5 + i}};
        report.sizes.push_back(size);
    }
    return report;
}

} // namespace

TEST_CASE("what a family wrote is read back, with what its sizes are laid over each other by") {
    const FamilyReport report = eight_sizes();
    const FoundFamily found = read_found_family(family_json(report), "family.json");
    CHECK(found.board.value.name == "<Tarn>");
    REQUIRE(found.sizes.size() == 8);
    const FoundSize& size = found.sizes[3];
    CHECK(size.name == "143");
    CHECK_FALSE(size.met);
    CHECK(size.rider_kg.value() == 53);
    CHECK(size.targets[0].value.unit == "N m/deg");
    CHECK(size.values.at("core.thickness_mm[0]") == 8);
    const Planform& planform = report.sizes[3].board.planform;
    const auto [tail, nose] = x_extent(planform);
    REQUIRE(size.figure("length") != nullptr);
    CHECK(size.figure("length")->value == Approx(1000 * (nose - tail)));
    const auto& outline = size.drawing.value.outline;
    const auto [first, last] = std::minmax_element(outline.begin(), outline.end());
    CHECK(first->first == Approx(1000 * tail));
    CHECK(last->first == Approx(1000 * nose));
    REQUIRE(size.column("width_mm") != nullptr);
    CHECK(size.column("width_mm")->at(10) == Approx(1000 * width_at(planform, 0)));
}

TEST_CASE("the sizes stand in tables of one row each and in pictures of six lines at most") {
    Findings findings;
    findings.family = read_found_family(family_json(eight_sizes()), "family.json");
    const std::string html = findings_html(findings, "");
    CHECK_THAT(html, Contains("7 of 8 sizes meet") && Contains("&lt;Tarn&gt;") &&
                         Contains("nose-twist<br>wanted, N m/deg") && !Contains("nan"));
    CHECK(times(html, ">missed<") == 1);
    CHECK(times(html, "<th scope=\"row\">143</th>") == 2); // targets, weights and lengths
    CHECK(times(html, "<th scope=\"row\">core.thickness_mm[0]</th>") == 1);
    CHECK(times(html, "<title id=\"size0o-t\">") == 1);
    CHECK(times(html, "<title id=\"size6o-t\">") == 1);
    // five pictures, of six and of two: each line in the picture and in the key, outlines with
    // four short contact lines
    CHECK(times(html, "\"curve C5\"") == 4 + 5 + 5);
}

TEST_CASE("a range that a size was to stay in stands as such, not as a number wanted") {
    FamilyReport report = eight_sizes();
    report.sizes[2].targets[0].min = 8;
    report.sizes[4].targets[0].max = 12;
    report.sizes[5].targets[0] = report.sizes[2].targets[0];
    report.sizes[5].targets[0].max = 12;
    report.sizes[5].targets[0].wanted = 10; // the middle
    const std::string html = family_section(read_found_family(family_json(report), "family.json"));
    const std::string text = family_text(report);
    for (const char* wanted : {"at least 8.0000", "at most 12.000", "8.0000 to 12.000"}) {
        CHECK_THAT(html, Contains(std::string("<td>") + wanted + "</td>"));
        CHECK_THAT(text, Contains(wanted));
    }
    CHECK_THAT(html, !Contains("<td>10.000</td>"));
    CHECK_THAT(text, !Contains("10.000"));
}

TEST_CASE("a family without drawings keeps its table, a damaged one is refused by name") {
    auto json = nlohmann::ordered_json::parse(family_json(eight_sizes()));
    for (auto& size : json["sizes"]) {
        for (const char* key : {"mass", "outline", "drawing", "along", "rider_kg", "board"}) {
            size.erase(key);
        }
    }
    const std::string plain = family_section(read_found_family(json.dump(), "family.json"));
    CHECK_THAT(plain, Contains("wanted") && !Contains("<svg") && !Contains("Weights"));
    json["sizes"][0]["along"] = {{"x_mm", {1, 2}}, {"width_mm", {1}}};
    CHECK_THROWS_WITH(read_found_family(json.dump(), "d/family.json"),
                      Contains("d/family.json") && Contains("width_mm"));
    json["sizes"] = 3;
    CHECK_THROWS_AS(read_found_family(json.dump(), "family.json"), InputError);
    CHECK_THROWS_AS(read_found_family("{", "family.json"), InputError);
}
