// Single values of a table: units, ranges, and what is said of those that are wrong.
#include <cmath>
#include <numbers>

#include <catch2/catch.hpp>

#include "tests/io/toml/read_table.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

using Said = std::vector<std::string>;

} // namespace

TEST_CASE("a number comes in SI by the ending of its key") {
    ReadTable material("E1_GPa = 40\nnu12 = 0.27\ndensity_kgm3 = 1900\nalpha1_1e6K = 7\n"
                       "Xt_MPa = 1000\n",
                       "material");
    CHECK(material.reader.number("E1_GPa") == 40e9);
    CHECK(material.reader.number("nu12") == 0.27);
    CHECK(material.reader.number("density_kgm3") == 1900);
    CHECK(material.reader.number("alpha1_1e6K") == 7e-6);
    CHECK(material.reader.number("Xt_MPa") == 1000e6);
    ReadTable layer("angle_deg = -45\nthickness_mm = 1.2\n", "layer");
    CHECK(layer.reader.number("angle_deg") == Approx(-std::numbers::pi / 4));
    CHECK(layer.reader.number("thickness_mm") == 0.0012);
    ReadTable mass("resin_gsm = 300\ninsert_mass_g = 8.5\n", "mass_only");
    CHECK(mass.reader.number("resin_gsm") == 0.3);
    CHECK(mass.reader.number("insert_mass_g") == 0.0085);
    CHECK(mass.problems().empty());
}

TEST_CASE("a number out of its range, or none, is told with place, what was found and the range") {
    ReadTable table("waist_width_mm = 0\nnose_width_mm = \"wide\"\ntail_width_mm = true\n"
                    "nose_length_mm = [1, 2]\ntail_length_mm = nan\nwaist_x_mm = 2020-01-01\n",
                    "planform");
    CHECK(std::isnan(table.reader.number("waist_width_mm")));
    CHECK(table.problems().at(0).starts_with("1:18 planform.waist_width_mm: found 0; accepted: a "
                                             "number "));
    ReadTable close("thickness_mm = 200.0000001\nangle_deg = -360.0000001\n", "layer");
    CHECK(std::isnan(close.reader.number("thickness_mm")));
    CHECK_THAT(close.problems().at(0), Contains("found 200.0000001; accepted: a number "));
    CHECK(std::isnan(table.reader.number("nose_width_mm")));
    CHECK_THAT(table.problems().at(0), Contains("2:17 planform.nose_width_mm: found the text "
                                                "\"wide\"; accepted: a number"));
    CHECK(std::isnan(table.reader.number("tail_width_mm")));
    CHECK_THAT(table.problems().at(0), Contains("found true;"));
    CHECK(std::isnan(table.reader.number("nose_length_mm")));
    CHECK_THAT(table.problems().at(0), Contains("found an array of 2;"));
    CHECK(std::isnan(table.reader.number("tail_length_mm")));
    CHECK_THAT(table.problems().at(0), Contains("found nan;"));
    CHECK(std::isnan(table.reader.number("waist_x_mm")));
    CHECK_THAT(table.problems().at(0), Contains("found a date or time;"));
    CHECK(std::isnan(table.reader.number("running_length_mm")));
    CHECK(table.problems() ==
          Said{"1:1 planform.running_length_mm: missing; this key is required"});
}

TEST_CASE("an absent number is what it is said to be otherwise; a wrong one is not") {
    ReadTable table("waist_x_mm = 9e9\n", "planform");
    CHECK(table.reader.number_or("setback_mm", 7) == 7);
    CHECK_FALSE(table.reader.number_if("nose_width_mm"));
    CHECK(table.problems().empty());
    CHECK(std::isnan(table.reader.number_or("waist_x_mm", 7)));
    CHECK(table.problems().size() == 1);
    ReadTable cure("cold_C = -10\n", "cure");
    CHECK(cure.reader.number_or_default("cold_C") == -10);
    CHECK(cure.reader.number_or_default("room_C") == 20); // vrid keys cure
}

TEST_CASE("whole numbers and flags are just that") {
    ReadTable table("inserts_per_foot = 12\n", "mass_only");
    CHECK(table.reader.whole_number_or("inserts_per_foot", 3) == 12);
    ReadTable half("inserts_per_foot = 12.5\n", "mass_only");
    (void)half.reader.whole_number_or("inserts_per_foot", 3);
    CHECK(half.problems() ==
          Said{"1:20 mass_only.inserts_per_foot: found 12.5; accepted: a whole number"});
    ReadTable none("", "mass_only");
    CHECK(none.reader.whole_number_or("inserts_per_foot", 3) == 3);
    ReadTable flags("flip = true\nmirror = false\ncore = 1\n", "layer");
    CHECK(flags.reader.flag_or("flip", false));
    CHECK_FALSE(flags.reader.flag_or("mirror", true));
    CHECK(flags.reader.flag_or("inlay", true));
    CHECK(flags.problems().empty());
    CHECK(flags.reader.flag_or("core", true));
    CHECK(flags.problems() == Said{"3:8 layer.core: found 1; accepted: true or false"});
}

TEST_CASE("a text has 1 to 200 bytes on one line; letters beyond ASCII come back as they were") {
    const std::string long_enough(200, 'x');
    ReadTable table("a = \"h\xc3\xb6lzern ~\"\nb = \"\"\nc = \"" + long_enough + "\"\nd = \"" +
                    long_enough + "y\"\ne = \"two\\nlines\"\nf = 3\n");
    CHECK(table.reader.text("a") == "h\xc3\xb6lzern ~");
    CHECK(table.reader.text("c") == long_enough);
    CHECK(table.reader.text_if("none").empty());
    CHECK(table.problems().empty());
    CHECK(table.reader.text("b").empty());
    CHECK(table.problems() ==
          Said{"2:5 b: found a text of 0 bytes; accepted: 1 to 200 bytes on one line"});
    CHECK(table.reader.text("d").empty());
    CHECK_THAT(table.problems().at(0), Contains("found a text of 201 bytes"));
    CHECK(table.reader.text_if("e").empty());
    CHECK(table.problems().size() == 1);
    CHECK(table.reader.text("f").empty());
    CHECK(table.problems() == Said{"6:5 f: found 3; accepted: a text in quotes"});
    CHECK(table.reader.text("g").empty());
    CHECK(table.problems() == Said{"1:1 g: missing; this key is required"});
}

TEST_CASE("a key that nobody asked for is told with the nearest and with all that there are") {
    ReadTable table("width_mm = 560\nsetbak_mm = 12\n", "stance");
    (void)table.reader.number("width_mm");
    (void)table.reader.number_if("setback_mm");
    table.reader.know({"foot_length_mm"});
    table.reader.finish();
    CHECK(table.problems() ==
          Said{"2:1 stance.setbak_mm: unknown key; did you mean 'setback_mm'?; accepted: "
               "foot_length_mm, setback_mm, width_mm"});
}

TEST_CASE("a key that has no meaning here is told why, and not as unknown besides") {
    ReadTable table("width_mm = 560\n", "stance");
    table.reader.refuse("width_mm", "a coupon has no feet");
    table.reader.refuse("setback_mm", "a coupon has no feet");
    table.reader.finish();
    CHECK(table.problems() == Said{"1:12 stance.width_mm: a coupon has no feet"});
}

TEST_CASE(
    "of a long text in a message 60 letters are shown, control characters as question marks") {
    ReadTable table("width_mm = \"a\\tb" + std::string(70, 'x') + "\"\n", "stance");
    (void)table.reader.number("width_mm");
    CHECK_THAT(table.problems().at(0),
               Contains("the text \"a?b" + std::string(57, 'x') + "...\"; accepted"));
}

TEST_CASE("places of keys count letters of the file, not of its spelling") {
    ReadTable table("note = \"\xc3\xb6\xc3\xb6\xc3\xb6\" # \xe2\x82\xac\n\"\xc3\xb6\" = { x = "
                    "\"\xc3\xb6\", y = 3 }\n");
    const auto entries = table.reader.entries("material");
    REQUIRE(entries.size() == 1);
    CHECK(entries[0].first == "\xc3\xb6");
    CHECK(entries[0].second.place("y") == "f.toml:2:22");
    CHECK(entries[0].second.path() == "\xc3\xb6");
}
