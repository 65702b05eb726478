// Boards out of the press: whole plates solved, not only their sections.
#include "benchmarks/published/check.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "solver/study.hpp"

namespace vrid::published {

namespace {

std::string layer(const std::string& name, const std::string& of, double mm, double angle) {
    return "[[layer]]\nname = \"" + name + "\"\nmaterial = \"" + of +
           "\"\nthickness_mm = " + std::to_string(mm) + "\nangle_deg = " + std::to_string(angle) +
           "\n";
}

std::string plate(const std::string& rectangle, double from, double to) {
    return "format = 1\nname = \"plate\"\n[planform]\nrectangle_mm = " + rectangle +
           "\n[cure]\nstress_free_C = " + std::to_string(from) +
           "\nroom_C = " + std::to_string(to) + "\n";
}

std::string metal(const std::string& name, double E, double alpha) {
    return "[material." + name + "]\nE_GPa = " + std::to_string(E) +
           "\nnu = 0\ndensity_kgm3 = 1000\nalpha1_1e6K = " + std::to_string(alpha) + "\n";
}

const std::string tape = "[material.tape]\nE1_GPa = 181\nE2_GPa = 10.3\nnu12 = 0.28\n"
                         "G12_GPa = 7.17\nG13_GPa = 7.17\nG23_GPa = 3\ndensity_kgm3 = 1600\n"
                         "alpha1_1e6K = 0.02\nalpha2_1e6K = 22.5\n";

std::string two_plies(double lower, double upper) {
    return plate("[50, 50]", 120, 20) + layer("a", "tape", 0.125, lower) +
           layer("b", "tape", 0.125, upper) + tape;
}

std::string strip(double E1, double E2, double mm, double alpha, double kelvin) {
    return plate("[1000, 20]", 0, kelvin) + layer("a", "one", mm, 0) + layer("b", "two", mm, 0) +
           metal("one", E1, 0) + metal("two", E2, alpha);
}

// A number of `release`, in mm or degrees.
std::function<Ours()> released(const std::string& text, const std::string& name, double scale) {
    return [=] {
        const Board board = read_board_text({text, "plate.toml", ""}, load_material_library());
        StudyOptions options;
        options.cases = {"release"};
        const StudyResult result = run_study(board, options); // outlives the loop over its numbers
        for (const NamedQuantity& number : result.cases.front().numbers) {
            if (number.name == name && number.station.value_or(0) == 0) {
                return Ours{scale * number.quantity.value, scale * number.quantity.error};
            }
        }
        return Ours{};
    };
}

} // namespace

std::vector<Check> press() {
    const std::string bimetal = "Timoshenko, Analysis of bi-metal thermostats, 1925 (from memory), "
                                "formula recomputed; arch "
                                "k L^2 / 8";
    const std::string clt = "classical lamination theory, recomputed; compare Hyer, Some "
                            "observations on the cured shape of thin unsymmetric laminates, 1981 "
                            "(from memory)";
    constexpr double mm = 1e3;
    constexpr double degrees = 57.29577951308232;
    return {{"two-metal strip 200/200 GPa, 1/1 mm, 10e-6/K, 100 K, 1 m long: arch, mm", bimetal,
             93.750, 5e-4, released(strip(200, 200, 1, 10, 100), "camber", mm)},
            {"steel on polyethylene 206/0.8 GPa, 1.2/1.2 mm, 150e-6/K, -60 K, 1 m long: arch, mm",
             bimetal, -41.436, 1e-3, released(strip(206, 0.8, 1.2, 150, -60), "camber", mm)},
            {"[0/90] 2 x 0.125 mm, 50 mm square, cooled by 100 K: arch along, mm", clt, -2.12746,
             5e-6, released(two_plies(0, 90), "camber", mm)},
            {"[0/90] 2 x 0.125 mm, 50 mm square, cooled by 100 K: hollow, mm", clt, 2.12746, 5e-6,
             released(two_plies(0, 90), "concavity", mm)},
            {"[45/-45] 2 x 0.125 mm, 50 mm square, cooled by 100 K: twist, deg", clt, 19.5030, 1e-3,
             released(two_plies(45, -45), "twist", degrees)},
            {"[-45/45] 2 x 0.125 mm, 50 mm square, cooled by 100 K: twist, deg", clt, -19.5030,
             1e-3, released(two_plies(-45, 45), "twist", degrees)}};
}

} // namespace vrid::published
