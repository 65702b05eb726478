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

const std::string tape = "[material.tape]\nE1_GPa = 181\nE2_GPa = 10.3\nnu12 = 0.28\n"
                         "G12_GPa = 7.17\nG13_GPa = 7.17\nG23_GPa = 3\ndensity_kgm3 = 1600\n"
                         "alpha1_1e6K = 0.02\nalpha2_1e6K = 22.5\n";

std::string two_plies(double lower, double upper) {
    return plate("[50, 50]", 120, 20) + layer("a", "tape", 0.125, lower) +
           layer("b", "tape", 0.125, upper) + tape;
}

// A number of `release`, in mm or degrees.
std::function<Ours()> released(const std::string& text, const std::string& name, double scale) {
    return [=] {
        const Board board = read_board_text({text, "plate.toml", ""}, load_material_library());
        StudyOptions options;
        options.cases = {"release"};
        for (const NamedQuantity& number : run_study(board, options).cases.front().numbers) {
            if (number.name == name && number.station.value_or(0) == 0) {
                return Ours{scale * number.quantity.value, scale * number.quantity.error};
            }
        }
        return Ours{};
    };
}

} // namespace

std::vector<Check> press() {
    const std::string clt = "classical lamination theory, recomputed; compare Hyer, Some "
                            "observations on the cured shape of thin unsymmetric laminates, 1981 "
                            "(from memory)";
    constexpr double mm = 1e3;
    constexpr double degrees = 57.29577951308232;
    return {{"[0/90] 2 x 0.125 mm, 50 mm square, cooled by 100 K: hollow, mm", clt, 2.12746, 5e-6,
             released(two_plies(0, 90), "concavity", mm)},
            {"[45/-45] 2 x 0.125 mm, 50 mm square, cooled by 100 K: twist, deg", clt, 19.5030, 1e-3,
             released(two_plies(45, -45), "twist", degrees)},
            {"[-45/45] 2 x 0.125 mm, 50 mm square, cooled by 100 K: twist, deg", clt, -19.5030,
             1e-3, released(two_plies(-45, 45), "twist", degrees)}};
}

} // namespace vrid::published
