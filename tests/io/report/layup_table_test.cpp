// The table of the layup, against cells written by hand.
#include <catch2/catch.hpp>

#include "io/report/report.hpp"

using namespace vrid;
using Catch::Contains;

TEST_CASE("a layer's row has its plies upwards, its resin, thickness and place") {
    Drawing drawing;
    CHECK(layup_table(drawing).empty());
    LaidLayer glass{"<glass>", "triax-740", "|y| < 100", 0.5678};
    glass.plies = {{"e-glass", 0, 370.0, {}}, {"own", -22.5, {}, 0.16}};
    glass.resin = std::string("epoxy");
    glass.resin_gsm = 345.6;
    LaidLayer core{"core", "poplar", "all", {}};
    drawing.layup.value = {glass, core};
    const std::string table = layup_table(drawing);
    CHECK_THAT(table,
               Contains("<tr><th scope=\"row\">&lt;glass&gt;</th><td class=\"text\">triax-740</td>"
                        "<td class=\"text\">e-glass 0&deg;, 370<br>own -22.5&deg;, 0.16 mm</td>"
                        "<td class=\"text\">epoxy 346</td><td>0.568</td>"
                        "<td class=\"text\">|y| &lt; 100</td></tr>\n"
                        "<tr><th scope=\"row\">core</th><td class=\"text\">poplar</td>"
                        "<td class=\"text\"></td><td class=\"text\"></td><td></td>"
                        "<td class=\"text\">all</td></tr>\n"));
}
