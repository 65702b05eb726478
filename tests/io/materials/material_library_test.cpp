#include "io/materials/material_library.hpp"

#include <cmath>
#include <cstdlib>

#include <catch2/catch.hpp>

#include "mesh/board/material_keys.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

std::string complaint(const std::string& folder) {
    return complaint_of([&] { (void)read_material_library(folder); });
}

const std::string sound = "[material.a]\nE_GPa = 2\nnu = 0.3\ndensity_kgm3 = 1000\n";

} // namespace

TEST_CASE("the library has the materials that board files take for granted") {
    const MaterialLibrary& library = shipped_library();
    for (const char* name : {"e-glass",
                             "s-glass",
                             "carbon-standard",
                             "carbon-intermediate",
                             "aramid",
                             "flax",
                             "basalt",
                             "epoxy",
                             "bio-epoxy",
                             "e-glass-epoxy-ud",
                             "carbon-epoxy-ud",
                             "poplar",
                             "aspen",
                             "paulownia",
                             "ash",
                             "beech",
                             "birch",
                             "maple",
                             "bamboo",
                             "balsa",
                             "cedar",
                             "steel",
                             "aluminium",
                             "uhmwpe",
                             "uhmwpe-sintered",
                             "uhmwpe-extruded",
                             "abs",
                             "polyamide",
                             "tpu",
                             "rubber"}) {
        INFO(name);
        CHECK(library.materials.contains(name));
    }
    for (const char* name : {"triax-680", "biax-680", "carbon-ud-150"}) {
        CHECK(library.fabrics.contains(name));
    }
}

TEST_CASE("every value of every material of the library has a source, every entry a note") {
    for (const auto& [name, material] : shipped_library().materials) {
        INFO(name);
        CHECK_FALSE(material.note.empty());
        CHECK(material.note.find('\n') == std::string::npos);
        for (const MaterialValue& value : material_values(material)) {
            INFO(value.key);
            REQUIRE(material.source.contains(value.key));
            const std::string& source = material.source.at(value.key);
            // a publication with its year, or an honest word
            const bool year =
                source.find("(19") != std::string::npos || source.find("(20") != std::string::npos;
            const bool word = source.find("no source") != std::string::npos ||
                              source.find("from memory") != std::string::npos ||
                              source.find("symmetry") != std::string::npos ||
                              source.find("no date") != std::string::npos;
            CHECK((year || word));
        }
    }
    for (const auto& [name, fabric] : shipped_library().fabrics) {
        INFO(name);
        CHECK_FALSE(fabric.note.empty());
    }
}

TEST_CASE("every material of the library is physically admissible") {
    for (const auto& [name, m] : shipped_library().materials) {
        INFO(name);
        CHECK(m.E1 > 0);
        CHECK(m.E2 > 0);
        CHECK(m.G12 > 0);
        CHECK(m.G13 > 0);
        CHECK(m.G23 > 0);
        CHECK(m.density > 0);
        CHECK(std::abs(m.nu12) < std::sqrt(m.E1 / m.E2));
        CHECK(m.E1 >= m.E2); // 1 is along fibre or grain
        if (m.isotropic) {
            CHECK(m.nu12 < 0.5);
            CHECK(m.G12 == Approx(m.E1 / (2 * (1 + m.nu12))));
        }
    }
}

TEST_CASE("woods follow the Handbook: E1 is 1.10 times the bending modulus") {
    // White ash: 12.0 GPa, specific gravity 0.60 (Wood Handbook, FPL-GTR-282, table 5-3a)
    const Material& ash = shipped_library().materials.at("ash");
    CHECK(ash.E1 == Approx(1.10 * 12.0e9));
    CHECK(ash.density == Approx(1.12 * 600));
    CHECK(ash.E2 == Approx(0.125 * ash.E1).epsilon(5e-3)); // radial
    CHECK(ash.G13 == Approx(0.077 * ash.E1).epsilon(5e-3));
}

TEST_CASE("a library file with a problem is refused with its place") {
    const TestFolder folder("library");
    CHECK(complaint(folder.path()).find("holds no material") != std::string::npos);
    (void)folder.write("a.toml", sound);
    CHECK(complaint(folder.path()).find("a.toml:2:9: material.a.E_GPa: has no source") !=
          std::string::npos);
    (void)folder.write("a.toml", sound + "[material.a.source]\nall = \"x\"\n");
    CHECK(complaint(folder.path()).empty());
    (void)folder.write("b.toml",
                       sound + "[material.a.source]\nall = \"x\"\n[fabric.f]\nplies = []\n");
    CHECK(complaint(folder.path()).find("b.toml:1:1: material.a: the library has this material") !=
          std::string::npos);
    CHECK(complaint(folder.path()).find("fabric.f.plies") != std::string::npos);
    CHECK(complaint(folder.path() + "/none").find("cannot be read") != std::string::npos);
}

TEST_CASE("VRID_MATERIALS names the folder of the library, and a wrong one is an error") {
    const TestFolder folder("named-library");
    REQUIRE(setenv("VRID_MATERIALS", folder.path().c_str(), 1) == 0);
    CHECK(material_library_folder() == folder.path());
    REQUIRE(setenv("VRID_MATERIALS", "/no/such/folder", 1) == 0);
    CHECK_THROWS_AS(material_library_folder(), InputError);
    REQUIRE(unsetenv("VRID_MATERIALS") == 0);
    CHECK(
        load_material_library().materials.contains("steel")); // of the installation or the sources
}
