// A goal of several sizes, each key with a value of its own; whole families: tests/whole.
#include "io/design/read_family.hpp"

#include <catch2/catch.hpp>

#include "io/design/read_goal.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const std::string one_target = "[[target]]\nnumber = \"mass\"\nsame_as = \"approved\"\n";
const std::string free_base = "[[free]]\nvalue = \"layer.base.thickness_mm\"\nmin = 0.5\nmax = 3\n";

Family family_of(const std::string& text) {
    Family family;
    (void)read_goal_text({text, "goal.toml", ""}, demo(), &family);
    return family;
}

std::string family_complaint(const std::string& text) {
    return complaint_of([&] { (void)family_of(text); });
}

} // namespace

TEST_CASE("a size has a name, what is set, a radius, what is stretched, and its rider") {
    const Family family = family_of("[[size]]\nname = \"150\"\nrider_kg = 60\n"
                                    "[[size]]\nname = \"160-w_1.2\"\nsidecut_m = 8.5\n"
                                    "stretch = [\"core.station_mm\", \"edge.x_mm\"]\n"
                                    "set = { \"planform.running_length_mm\" = 1150, "
                                    "\"layer.lower glass.fabric\" = \"biax-680\" }\nrider_kg = 75\n"
                                    "[approved]\nrider_kg = 70\n" +
                                    one_target +
                                    "scale = { rider_kg = 1.5, "
                                    "\"planform.running_length_mm\" = -2 }\n" +
                                    free_base);
    CHECK(*family.approved_rider == 70);
    REQUIRE(family.sizes.size() == 2);
    const FamilySize& plain = family.sizes[0];
    CHECK(plain.name == "150");
    CHECK(*plain.rider == 60);
    CHECK(plain.place == "goal.toml:1:1");
    CHECK_FALSE(plain.sidecut);
    CHECK(plain.set.empty());
    CHECK(plain.stretch.empty());
    const FamilySize& size = family.sizes[1];
    CHECK(size.name == "160-w_1.2");
    CHECK(*size.sidecut == 8.5);
    CHECK(size.stretch == std::vector<std::string>{"core.station_mm", "edge.x_mm"});
    REQUIRE(size.set.size() == 2);
    CHECK(size.set[0].path == "layer.lower glass.fabric");
    CHECK(std::get<std::string>(size.set[0].value) == "biax-680");
    CHECK(size.set[1].path == "planform.running_length_mm");
    CHECK(std::get<double>(size.set[1].value) == 1150);
    REQUIRE(family.scale.size() == 1);
    CHECK(family.scale[0] ==
          std::map<std::string, double>{{"rider_kg", 1.5}, {"planform.running_length_mm", -2}});
    CHECK(family_of(one_target + free_base + "[[size]]\nname = \"a\"\n").scale[0].empty());
}

TEST_CASE("names that are no file's, twice the same, or paths that are none are refused") {
    const auto refused = [](const std::string& size, const std::string& why) {
        CHECK_THAT(family_complaint("[[size]]\n" + size + one_target + free_base), Contains(why));
    };
    for (const char* name : {"a b", "a/b", "../a", ".a", "\xc3\xb6"}) {
        refused("name = \"" + std::string(name) + "\"\n", "size[0].name: found the text");
    }
    refused("name = \"a\"\n[[size]]\nname = \"a\"\n", "size[1].name: found \"a\" twice");
    refused("name = \"a\"\nset = { \"layer.bose.thickness_mm\" = 1 }\n",
            "size.set: found \"layer.bose.thickness_mm\", no design value of this board; did you "
            "mean 'layer.base.thickness_mm'");
    refused("name = \"a\"\nstretch = [\"core.thickness_mm\"]\n",
            "size[0].stretch: found \"core.thickness_mm\", which covers more than stations");
    refused("name = \"a\"\nsidecut_m = 8\nset = { \"planform.waist_width_mm\" = 250 }\n",
            "size[0].sidecut_m: the waist width follows from it");
    refused("name = \"a\"\nrider = 70\n", "size[0].rider: unknown key");
}

TEST_CASE("a radius beside free values of the outline would set the waist twice") {
    const std::string free_waist =
        "[[free]]\nvalue = \"planform.waist_width_mm\"\nmin = 240\nmax = 260\n";
    const std::string size = "[[size]]\nname = \"a\"\nsidecut_m = 8\n";
    CHECK_THAT(family_complaint(size + one_target + free_waist),
               Contains("free.value: planform.waist_width_mm beside sidecut_m of the size at "
                        "goal.toml:1:1: both set the same value"));
    CHECK(family_complaint(size + one_target + free_base).empty());
}

TEST_CASE("a target scales by one value or the rider, and by a power; riders are then known") {
    const std::string size = "[[size]]\nname = \"a\"\n";
    const auto refused = [&](const std::string& before, const std::string& scale,
                             const std::string& why) {
        CHECK_THAT(family_complaint(before + one_target + "scale = " + scale + "\n" + free_base),
                   Contains(why));
    };
    refused(size, "{ rider_kg = 1 }", "goal.toml:1:1: size: rider_kg is missing, and a target");
    refused(size + "rider_kg = 70\n", "{ rider_kg = 1 }",
            "size: rider_kg is missing in [approved]");
    refused(size, "{ \"core.thickness_mm\" = 1 }",
            "target.scale: found \"core.thickness_mm\"; accepted: rider_kg or one design value");
    refused(size, "{ \"planform.running_length_mm\" = \"1\" }", "and a power");
    CHECK_THAT(family_complaint(size +
                                "[[target]]\nnumber = \"mass\"\nvalue = 3\n"
                                "scale = { \"planform.running_length_mm\" = 1 }\n" +
                                free_base),
               Contains("scale: goes with same_as = \"approved\" and [[size]] only"));
}
