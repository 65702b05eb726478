#include "io/materials/materials_text.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

TEST_CASE("the list of materials has a line for every entry") {
    const std::string text = materials_text(shipped_library());
    for (const auto& [name, material] : shipped_library().materials) {
        CHECK_THAT(text, Contains("\n" + name + " ") && Contains(material.note));
    }
    CHECK_THAT(text, Contains("\ntriax-680"));
    CHECK_THAT(text, Contains("\ncore.thickness_mm ") && Contains("0.05 mm"));
}

TEST_CASE("one material is shown with value, unit and source of each key") {
    const std::string text = materials_text(shipped_library(), "e-glass");
    CHECK_THAT(text, Contains("E_GPa") && Contains("72.4") && Contains("GPa") && Contains("Jang"));
    CHECK_THAT(text, Contains("density_kgm3") && Contains("2540") && Contains("kg/m3"));
    CHECK_THAT(text, !Contains("E2_GPa") && !Contains("alpha2"));
    CHECK_THAT(materials_text(shipped_library(), "triax-680"),
               Contains("resin epoxy, fibre volume fraction 0.46") && Contains("-45 deg"));
}

TEST_CASE("the JSON of the library holds the values of the files") {
    const auto all = nlohmann::json::parse(materials_json(shipped_library()));
    CHECK(all["tolerances"].size() == shipped_library().tolerance.size());
    CHECK(all["format"] == 1);
    CHECK(all["materials"].size() == shipped_library().materials.size());
    const auto one = nlohmann::json::parse(materials_json(shipped_library(), "carbon-standard"));
    REQUIRE(one["materials"].size() == 1);
    const auto& values = one["materials"][0]["values"];
    CHECK(values["E1_GPa"]["value"] == 230.0);
    CHECK(values["E1_GPa"]["unit"] == "GPa");
    CHECK(values["alpha1_1e6K"]["value"] == -0.7);
    CHECK_FALSE(values["density_kgm3"]["source"].get<std::string>().empty());
    const auto fabric = nlohmann::json::parse(materials_json(shipped_library(), "triax-680"));
    CHECK(fabric["fabrics"][0]["plies"][2]["angle_deg"] == -45.0);
}

TEST_CASE("an unknown material names the nearest one") {
    CHECK_THROWS_WITH(materials_text(shipped_library(), "popler"), Contains("'poplar'"));
    CHECK_THROWS_AS(materials_json(shipped_library(), "triax-860"), InputError);
}
