// Which numbers and values of the demo board the words of --of and --to mean.
#include "io/verbs/study_arguments.hpp"

#include <catch2/catch.hpp>

#include "io/write/design_path.hpp"
#include "io/write/number_name.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

using Words = std::vector<std::string>;

Arguments typed(const std::string& name, const Words& texts) {
    Arguments arguments;
    arguments.options[name] = texts;
    return arguments;
}

Words names_of(const Arguments& arguments, const std::vector<double>& travels = {}) {
    Words names;
    for (const NumberId& number : numbers_asked(arguments, demo(), travels)) {
        names.push_back(number_name(number));
    }
    return names;
}

Words paths_to(const Arguments& arguments) {
    const std::vector<DesignValue> values = design_board(demo()).values;
    const std::vector<bool> asked = values_asked(arguments, values);
    Words paths;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (asked[i]) {
            paths.push_back(path_of(values[i].id));
        }
    }
    return paths;
}

} // namespace

TEST_CASE("words stand between commas or in options of their own; blanks around them are none") {
    CHECK(words_of(typed("--of", {"mass, free-modes mode 1 ", ",nose-twist,, "}), "--of") ==
          Words{"mass", "free-modes mode 1", "nose-twist"});
    CHECK(words_of({}, "--of").empty());
}

TEST_CASE("option --of names numbers in its own order, each once; a star covers all that fit") {
    CHECK(names_of(typed("--of", {"tail-twist,mass", "EI@-270,mass"})) ==
          Words{"tail-twist", "mass", "EI@-270"});
    const Words twists = names_of(typed("--of", {"*-twist"}));
    CHECK(std::count(twists.begin(), twists.end(), "nose-twist") == 1);
    CHECK(std::count(twists.begin(), twists.end(), "centre-flex") == 0);
    CHECK(names_of(typed("--of", {"nose-twist,*-twist"})).front() == "nose-twist");
    CHECK(names_of(typed("--of", {"nose-twist,*-twist"})).size() == twists.size());
}

TEST_CASE("without --of the plain numbers come first, then those of the travels") {
    const Words plain = names_of({});
    CHECK(plain.front() == "mass");
    Words bent = names_of({}, {0.06});
    REQUIRE(bent.size() > plain.size());
    CHECK(Words(bent.begin(), bent.begin() + static_cast<std::ptrdiff_t>(plain.size())) == plain);
    bent.erase(bent.begin(), bent.begin() + static_cast<std::ptrdiff_t>(plain.size()));
    for (const std::string& name : bent) {
        CHECK_THAT(name, Contains("60 mm"));
    }
    const Words asked = names_of(typed("--of", {"mass"}), {0.06});
    CHECK(asked.size() == bent.size() + 1);
    CHECK(asked.back() == "mass");
}

TEST_CASE("a number that the board does not have is told with the nearest, all of them at once") {
    const std::string all =
        complaint_of([] { (void)names_of(typed("--of", {"nose-twst,mas,zzz*"})); });
    CHECK_THAT(all, Contains("'nose-twist'") && Contains("'mass'") &&
                        Contains("--of: found 'zzz*', no number of this board fits"));
    CHECK_THAT(complaint_of([] { (void)names_of(typed("--of", {" , "})); }),
               Contains("--of: found an empty list; accepted: names of numbers"));
}

TEST_CASE(
    "option --to covers paths and groups of them; without it all but constants of materials") {
    CHECK(paths_to(typed("--to", {"core.thickness_mm[3],layer.base.thickness_mm"})) ==
          Words{"core.thickness_mm[3]", "layer.base.thickness_mm"});
    CHECK(paths_to(typed("--to", {"core.thickness_mm"})).size() == 7);
    const Words angles = paths_to(typed("--to", {"layer.*.angle_deg"}));
    CHECK(std::count(angles.begin(), angles.end(), "layer.ribbon.angle_deg") == 1);
    for (const std::string& path : angles) {
        CHECK_THAT(path, Catch::StartsWith("layer.") && Catch::EndsWith(".angle_deg"));
    }
    const Words all = paths_to({});
    CHECK(std::count(all.begin(), all.end(), "core.thickness_mm[0]") == 1);
    CHECK(std::none_of(all.begin(), all.end(),
                       [](const std::string& path) { return path.starts_with("material."); }));
    CHECK_FALSE(paths_to(typed("--to", {"material.*"})).empty());
}

TEST_CASE("a value that the board does not have is told; heights of the rest shape by themselves") {
    const std::string all = complaint_of([] {
        (void)paths_to(typed("--to", {"layer.bose.thickness_mm", "rest_shape.z_mm[1]"}));
    });
    CHECK_THAT(all, Contains("--to: found 'layer.bose.thickness_mm'") &&
                        Contains("'layer.base.thickness_mm'") &&
                        Contains("heights of the rest shape have no derivatives"));
}

TEST_CASE("one condition of the edge is one: a map is refused with its size") {
    CHECK(one_condition({}).force == 800);
    CHECK_THAT(complaint_of([] {
                   (void)one_condition(typed("--force", {"800,900", "1000"}));
               }),
               Contains("found a map of 3 conditions; accepted: one value each"));
}
