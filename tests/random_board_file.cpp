#include "random_board_file.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "random_outline.hpp"

namespace vrid::tests {

namespace {

class Writer {
  public:
    explicit Writer(unsigned seed) : numbers_(seed), chance_(numbers_.chance), seed_(seed) {}

    RandomBoardFile file() {
        toml_ = "format = 1\nname = \"" +
                chance_.one_of<std::string>({"Board", "Brett \\\"Nord\\\"", "プレート", "=1+2"}) +
                " " + std::to_string(seed_) + "\"\n\n";
        outline_ = random_outline(numbers_);
        toml_ += outline_.toml + "\n";
        side_ = std::min(outline_.left, outline_.right);
        materials();
        cored_ = chance_.with(0.85);
        layers();
        if (cored_) {
            core();
        }
        bands();
        stance();
        rest();
        return {toml_, outline_.csv};
    }

  private:
    void line(const std::string& key, double value) {
        toml_ += key + " = " + text_of(value) + "\n";
    }
    void text(const std::string& key, const std::string& value) {
        toml_ += key + " = \"" + value + "\"\n";
    }
    std::string range(double least) { // of stations, reaching over the middle
        const double from = numbers_.between(outline_.tail, -least * outline_.contact, 0.5);
        const double to = numbers_.between(least * outline_.contact, outline_.nose, 0.5);
        return text_of({numbers_.hair(from), numbers_.hair(to)});
    }
    double angle() {
        return chance_.one_of<double>({0, 0, 0, 45, -45, 90, numbers_.between(-90, 90, 0.5)});
    }

    void materials() {
        toml_ += "[material.own-foil]\nE_GPa = " + text_of(numbers_.between(1, 200, 0.1)) +
                 "\nnu = " + text_of(numbers_.between(0.05, 0.45, 0.01)) +
                 "\ndensity_kgm3 = " + text_of(numbers_.between(900, 8000, 1)) + "\n\n";
        const double E1 = numbers_.between(5, 140, 0.1);
        const double E2 = numbers_.between(0.02, 1, 0.01) * E1;
        toml_ += "[material.own-wood]\n";
        line("E1_GPa", E1);
        line("E2_GPa", E2);
        line("nu12", numbers_.between(0.01, 0.9, 0.01) * std::sqrt(E1 / E2) * 0.5);
        for (const char* shear : {"G12_GPa", "G13_GPa", "G23_GPa"}) {
            line(shear, numbers_.between(0.01, 0.4, 0.001) * E1);
        }
        line("density_kgm3", numbers_.between(80, 1800, 1));
        if (chance_.with(0.5)) {
            line("alpha1_1e6K", numbers_.between(-1, 30, 0.1));
            line("alpha2_1e6K", numbers_.between(0, 80, 0.1));
            line("Xt_MPa", numbers_.between(20, 2000, 1));
        }
        toml_ += "\n[fabric.own-cloth]\nresin = \"epoxy\"\n";
        line("fibre_volume_fraction", numbers_.between(0.3, 0.65, 0.01));
        toml_ += "plies = [";
        for (int k = chance_.count(1, 4); k > 0; --k) {
            toml_ += "{ fibre = \"" +
                     chance_.one_of<std::string>({"e-glass", "carbon-standard", "aramid", "flax"}) +
                     "\", angle_deg = " + text_of(angle()) +
                     ", areal_weight_gsm = " + text_of(numbers_.between(40, 600, 1)) + " }, ";
        }
        toml_ +=
            "]\n\n[fabric.own-measured]\nplies = [{ ply_material = \"own-wood\", angle_deg = " +
            text_of(angle()) + ", ply_thickness_mm = " + text_of(numbers_.between(0.1, 0.8, 0.01)) +
            " }]\n\n";
    }

    void sheet(const std::string& name, const std::string& material, double thickness) {
        toml_ += "[[layer]]\n";
        text("name", name);
        text("material", material);
        line("thickness_mm", thickness);
    }
    void cloth(const std::string& name) {
        toml_ += "[[layer]]\n";
        text("name", name);
        text("fabric", chance_.one_of<std::string>({"triax-680", "biax-680", "glass-ud-300",
                                                    "carbon-biax-300", "basalt-biax-600",
                                                    "own-cloth", "own-measured"}));
        if (chance_.with(0.4)) {
            line("angle_deg", angle());
        }
        if (chance_.with(0.4)) {
            toml_ += "flip = true\n";
        }
    }

    void layers() {
        if (chance_.with(0.8)) {
            sheet("base", chance_.one_of<std::string>({"uhmwpe", "uhmwpe-sintered", "own-foil"}),
                  numbers_.between(0.5, 2, 0.05));
        }
        cloth("lower");
        patches("below", chance_.count(0, 3));
        if (cored_) {
            toml_ += "[[layer]]\nname = \"core\"\ncore = true\n";
        }
        patches("above", chance_.count(0, 2));
        cloth("upper");
        if (chance_.with(0.7)) {
            sheet("top sheet", chance_.one_of<std::string>({"polyamide", "abs", "own-foil"}),
                  numbers_.between(0.2, 1, 0.05));
        }
        toml_ += "\n";
    }

    void patches(const std::string& name, int count) {
        for (int k = 1; k <= count; ++k) {
            if (chance_.with(0.2)) {
                sheet(name + " " + std::to_string(k), "rubber", numbers_.between(0.1, 1, 0.05));
            } else {
                cloth(name + " " + std::to_string(k));
            }
            zone();
        }
    }

    // Mirrored ones keep to one side of the long axis.
    void zone() {
        const double kind = chance_.between(0, 1);
        if (kind < 0.25) {
            toml_ += "zone = { x_mm = " + range(0.1) + " }\n";
        } else if (kind < 0.5) {
            const double from = chance_.with(0.2) ? 0 : numbers_.between(0, 0.5 * side_, 0.05);
            const double to = from + numbers_.between(0.1 * side_, 0.8 * side_, 0.05);
            toml_ += "zone = { " + (chance_.with(0.6) ? "x_mm = " + range(0.2) + ", " : "") +
                     "y_mm = " + text_of({from, to}) + " }\n" +
                     (chance_.with(0.6) ? "mirror = true\n" : "");
        } else if (kind < 0.65) {
            const double from = chance_.with(0.3) ? 0 : numbers_.between(0, 0.3 * side_, 0.05);
            toml_ += "zone = { outline_mm = " +
                     text_of({from, from + numbers_.between(0.05 * side_, 0.4 * side_, 0.05)}) +
                     (chance_.with(0.3) ? ", x_mm = " + range(0.5) : "") + " }\n";
        } else {
            ribbon();
        }
    }

    void ribbon() {
        const double width = numbers_.between(0.1 * side_, 0.3 * side_, 0.1);
        const double x = numbers_.between(-0.6, 0.5, 1e-4) * outline_.contact;
        const double y = numbers_.between(0.3 * side_, 0.7 * side_, 0.1);
        const bool level = chance_.with(0.3);
        const double end_x = x + numbers_.between(0.2, 0.8, 1e-3) * outline_.contact;
        const double end_y = level ? y : numbers_.between(0.3 * side_, 1.2 * side_, 0.1);
        toml_ += "zone = { from_mm = " + text_of({x, y}) + ", to_mm = " + text_of({end_x, end_y}) +
                 ", width_mm = " + text_of(width) +
                 (chance_.with(0.2) ? ", x_mm = " + range(0.7) : "") + " }\n" +
                 (chance_.with(0.6) ? "mirror = true\n" : "");
    }

    void core() {
        toml_ += "[core]\n";
        if (chance_.with(0.5)) {
            text("interpolation", chance_.one_of<std::string>({"smooth", "linear"}));
        }
        thickness();
        toml_ += "strips = [";
        const bool resolve = chance_.with(0.05);
        for (int k = chance_.count(1, 4); k > 0; --k) {
            const double least = resolve ? 0.2 * side_ : 0.05 * side_;
            toml_ += "{ material = \"" +
                     chance_.one_of<std::string>({"poplar", "ash", "paulownia", "own-wood"}) +
                     "\", width_mm = " +
                     text_of(std::max(0.1, numbers_.between(least, least + 0.2 * side_, 0.1))) +
                     (chance_.with(0.15) ? ", x_mm = " + range(0.2) : "") + " }, ";
        }
        toml_ += "]\n";
        toml_ += resolve ? "resolve = true\n\n" : "\n";
        if (chance_.with(0.2)) {
            toml_ += "[tip_spacer]\nmaterial = \"abs\"\nx_mm = " + range(0.7) + "\n\n";
        }
    }

    // Thin at the tips, thick in the middle; stations from tip to tip, beyond them or short of
    // them.
    void thickness() {
        const double tip = numbers_.between(1.2, 3, 0.1);
        const double middle = numbers_.between(3, 9, 0.1);
        const double reach = chance_.one_of<double>({1, 1, 1.2, 0.8});
        const double from = reach == 1 ? numbers_.hair(outline_.tail) : reach * outline_.tail;
        const double to = reach == 1 ? numbers_.hair(outline_.nose) : reach * outline_.nose;
        const int count = chance_.count(2, 17);
        std::string all;
        for (int k = 0; k < count; ++k) {
            const double x =
                k + 1 == count ? to
                : k == 0       ? from
                         : from + (to - from) * (k + chance_.between(-0.3, 0.3)) / (count - 1);
            const double out = std::abs(2.0 * k / (count - 1) - 1);
            const double share = std::pow(std::cos(out * std::numbers::pi / 2), 2);
            all +=
                text_of({x, numbers_.between(0.98, 1.02, 1e-3) * (tip + share * (middle - tip))}) +
                ", ";
        }
        toml_ += "thickness_mm = [" + all + "]\n";
    }

    void bands() {
        if (chance_.with(0.6)) {
            toml_ += "[edge]\nmaterial = \"steel\"\n";
            line("width_mm", std::min(numbers_.between(1.5, 3, 0.1), 0.2 * side_));
            if (chance_.with(0.5)) {
                toml_ += "x_mm = " + range(0.5) + "\n";
            }
            if (chance_.with(0.6)) {
                toml_ += "flange = { width_mm = " +
                         text_of(std::min(numbers_.between(4, 8, 0.1), 0.4 * side_)) +
                         ", thickness_mm = 0.5" +
                         (chance_.with(0.5) ? ", fill = " + text_of(numbers_.between(0.3, 1, 0.05))
                                            : "") +
                         " }\n";
            }
            toml_ += "\n";
        }
        if (cored_ && chance_.with(0.6)) {
            toml_ += "[sidewall]\nmaterial = \"abs\"\n";
            line("width_mm", std::min(numbers_.between(4, 15, 0.1), 0.5 * side_));
            if (chance_.with(0.3)) {
                toml_ += "x_mm = " + range(0.5) + "\n";
            }
            toml_ += "\n";
        }
    }

    void stance() {
        const bool feet = chance_.with(0.7);
        if (feet) {
            const double contact = outline_.contact;
            const double foot = std::min(100.0, 0.15 * contact);
            toml_ += "[stance]\n";
            constexpr double widest = 2000; // that the reader takes
            line("width_mm", numbers_.between(0.5 * contact, std::min(1.1 * contact, widest), 0.5));
            line("setback_mm", numbers_.between(-0.1 * contact, 0.1 * contact, 0.5));
            line("foot_length_mm", foot);
            line("foot_width_mm", chance_.with(0.1) ? 1.9 * side_ : std::min(110.0, 1.5 * side_));
            toml_ += "\n";
        }
        if (chance_.with(0.6)) {
            toml_ += "[mass_only]\n";
            line("resin_gsm", numbers_.between(50, 500, 1));
            if (feet) {
                toml_ += "inserts_per_foot = " + std::to_string(chance_.count(0, 12)) +
                         "\ninsert_mass_g = 8.5\n";
            }
            toml_ += "\n";
        }
    }

    void rest() {
        if (chance_.with(0.5)) {
            const double contact = outline_.contact;
            // steeper tips are no shape to bend a board to: the reader refuses a slope of 0.95
            const double tail = std::min(44.0, 0.4 * (-contact - outline_.tail));
            const double nose = std::min(48.0, 0.4 * (outline_.nose - contact));
            const double camber =
                std::clamp(numbers_.between(-5, 8, 0.1), -0.3 * contact, 0.3 * contact);
            toml_ += "[rest_shape]\nz_mm = [" +
                     (outline_.tail < -contact - 1 ? text_of({outline_.tail, tail}) + ", " : "") +
                     text_of({-contact, 0}) + ", " + text_of({0, camber}) + ", " +
                     text_of({contact, 0}) +
                     (outline_.nose > contact + 1 ? ", " + text_of({outline_.nose, nose}) : "") +
                     "]\n\n";
        }
        if (chance_.with(0.4)) {
            toml_ += "[limits]\n\"mass\" = { max = 30 }\n\"sidecut-radius\" = { min = 1 }\n\"EI@" +
                     text_of(numbers_.between(-0.9, 0.9, 1e-3) * outline_.contact) +
                     "\" = { min = 0.001 }\n\n";
        }
        if (chance_.with(0.4)) {
            toml_ +=
                "[tolerance]\n\"layer.*.angle_deg\" = 1.5\n\"layer.lower.areal_weight_scale\" = "
                "\"2.5 %\"\n";
            if (cored_) {
                toml_ += "\"core.thickness_mm\" = 0.04\n";
            }
        }
    }

    FileNumbers numbers_;
    Chance& chance_;
    unsigned seed_;
    RandomOutline outline_;
    double side_ = 0; // half width that the board has both sides of the long axis [mm]
    bool cored_ = false;
    std::string toml_;
};

} // namespace

RandomBoardFile random_board_file(unsigned seed) {
    return Writer(seed).file();
}

} // namespace vrid::tests
