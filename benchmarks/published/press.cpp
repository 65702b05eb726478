// Boards out of the press: whole plates solved, not only their sections.
#include "benchmarks/published/check.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "solver/response/fields.hpp"
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

// Stress along x in a ply of a free plate, between its bottom (0) and its top (1); N/mm when summed
// over the ply's thickness.
enum class Told { stress, force };

std::function<Ours()> stress(const std::string& text, std::size_t ply, double share,
                             Eigen::Index axis = 0, Told told = Told::stress) {
    return [=] {
        const Board board = read_board_text({text, "plate.toml", ""}, load_material_library());
        StudyOptions options;
        options.cases = {"release"};
        const StudyResult result = run_study(board, options);
        const MotionSample sample = sample_motion(board, result, result.cases.front(), 3);
        const Eigen::Index middle = sample.strain.cols() / 2;
        const Eigen::Vector3d e = sample.strain.col(middle).head<3>();
        const Eigen::Vector3d k = sample.strain.col(middle).segment<3>(3);
        const Layup<double> layup = make_layup<double>(board);
        double z = 0;
        for (std::size_t below = 0; below < ply; ++below) {
            z += layup.items[below].plies.front().thickness;
        }
        const Lamina<double>& one = layup.items[ply].plies.front();
        z += share * one.thickness; // of a force the middle: stress runs straight
        const Eigen::Vector3d all = one.Qbar * (e + z * k - free_strain(one, board.cure->room));
        return told == Told::force ? Ours{all(axis) * one.thickness / 1e3} : Ours{all(axis) / 1e6};
    };
}

// Of a laminate's mean free strain along x by the kelvin, in 1e-6.
std::function<Ours()> expansion(const std::string& text, double kelvin) {
    return [=] {
        const Board board = read_board_text({text, "plate.toml", ""}, load_material_library());
        StudyOptions options;
        options.cases = {"release"};
        const StudyResult result = run_study(board, options);
        const MotionSample sample = sample_motion(board, result, result.cases.front(), 3);
        return Ours{sample.strain(0, sample.strain.cols() / 2) / kelvin * 1e6};
    };
}

std::string plies(double mm, double kelvin, const std::vector<double>& angles) {
    std::string text = plate("[300, 300]", 20 - kelvin, 20);
    for (std::size_t i = 0; i < angles.size(); ++i) {
        text += layer("ply " + std::to_string(i), "tape", mm, angles[i]);
    }
    return text + tape;
}

// One ply of E-glass in epoxy, at the temperature at which it holds no stress but its resin's
// shrink.
std::string shrinking_glass(double angle) {
    return plate("[300, 300]", 20, 20) +
           "[[layer]]\nname = \"a\"\nfabric = \"ud\"\nangle_deg = " + std::to_string(angle) +
           "\n[fabric.ud]\nresin = \"resin\"\nfibre_volume_fraction = 0.46\n"
           "plies = [{ fibre = \"fibre\", areal_weight_gsm = 300, angle_deg = 0 }]\n"
           "[material.fibre]\nE_GPa = 72.4\nnu = 0.22\ndensity_kgm3 = 2550\nalpha1_1e6K = 5\n"
           "[material.resin]\nE_GPa = 3.35\nnu = 0.35\ndensity_kgm3 = 1150\nalpha1_1e6K = 60\n"
           "shrink1_percent = 0.2\n";
}

} // namespace

std::vector<Check> press() {
    const std::string bimetal = "Timoshenko, Analysis of bi-metal thermostats, 1925 (from memory), "
                                "formula recomputed; arch "
                                "k L^2 / 8";
    const std::string clt = "classical lamination theory, recomputed; compare Hyer, Some "
                            "observations on the cured shape of thin unsymmetric laminates, 1981 "
                            "(from memory)";
    const std::string kaw = "classical lamination theory, recomputed, with the carbon of Kaw, "
                            "Mechanics of Composite Materials, 2006, example 4.5 (inputs from "
                            "memory)";
    const std::string schapery = "Schapery, Thermal expansion coefficients of composite materials "
                                 "based on energy principles, 1968, formula recomputed";
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
             1e-3, released(two_plies(-45, 45), "twist", degrees)},
            {"two-metal strip 200/200 GPa: force across the interface, N/mm", bimetal, 25, 5e-4,
             stress(strip(200, 200, 1, 10, 100), 0, 0.5, 0, Told::force)},
            {"steel on polyethylene: force across the interface, N/mm", bimetal, -8.2262, 5e-5,
             stress(strip(206, 0.8, 1.2, 150, -60), 0, 0.5, 0, Told::force)},
            {"two-metal strip 200/200 GPa: stress at the interface, MPa", bimetal, 100, 5e-3,
             stress(strip(200, 200, 1, 10, 100), 0, 1)},
            {"[0/90] 5 mm plies cooled by 75 K: stress along the fibre outside, MPa", kaw, 47.1829,
             5e-5, stress(plies(5, -75, {0, 90}), 0, 0)},
            {"[0/90] 5 mm plies cooled by 75 K: stress along the fibre at the interface, MPa", kaw,
             -67.0070, 5e-5, stress(plies(5, -75, {0, 90}), 0, 1)},
            {"[0/90]s cooled by 100 K: expansion along x, 1e-6/K", kaw, 1.52393, 5e-6,
             expansion(plies(0.125, -100, {0, 90, 90, 0}), -100)},
            {"[0/90]s cooled by 100 K: stress across the fibre, MPa", kaw, 21.2665, 5e-5,
             stress(plies(0.125, -100, {0, 90, 90, 0}), 0, 0.5, 1)},
            {"E-glass/epoxy Vf 0.46, resin shrinks by 0.2 %: ply's shrink along, 1e-6", schapery,
             103.04, 5e-3, expansion(shrinking_glass(0), -1)},
            {"E-glass/epoxy Vf 0.46, resin shrinks by 0.2 %: ply's shrink across, 1e-6", schapery,
             1428.1, 5e-2, expansion(shrinking_glass(90), -1)}};
}

} // namespace vrid::published
