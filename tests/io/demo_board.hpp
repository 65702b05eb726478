#pragma once

#include <filesystem>
#include <fstream>
#include <string>

#include <unistd.h>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "mesh/board/error.hpp"
#include "tests/shipped.hpp"

namespace vrid::tests {

/// A board file that uses every table of the format.
inline const std::string& demo_board_text() {
    static const std::string text = R"(format = 1
name = "Demo 157"

[planform]
running_length_mm = 1135
waist_width_mm = 250
nose_width_mm = 291
tail_width_mm = 286
waist_x_mm = -18.5
nose_length_mm = 220
tail_length_mm = 215
nose_fullness = 0.6
tail_fullness = 0.6

[core]
interpolation = "smooth"
thickness_mm = [[-782.5, 1.8], [-567.5, 2.5], [-292.5, 7.1], [-12.5, 6.8], [267.5, 7.1], [567.5, 2.5], [787.5, 1.8]]
strips = [
  { material = "poplar", width_mm = 36 },
  { material = "ash", width_mm = 18, x_mm = [-420, 420] },
]

[tip_spacer]
material = "abs"
x_mm = [-660, 665]

[[layer]]
name = "base"
material = "uhmwpe"
thickness_mm = 1.2

[[layer]]
name = "lower glass"
fabric = "triax-740"

[[layer]]
name = "ribbon"
fabric = "carbon-ud-300"
angle_deg = 5
zone = { from_mm = [-520, 60], to_mm = [520, 60], width_mm = 30, x_mm = [-500, 500] }
mirror = true

[[layer]]
name = "core"
core = true

[[layer]]
name = "nose patch"
fabric = "carbon-ud-300"
zone = { x_mm = [250, 640], y_mm = [20, 70] }

[[layer]]
name = "rubber"
material = "rubber"
thickness_mm = 0.3
zone = { outline_mm = [0, 25], x_mm = [-400, 400] }

[[layer]]
name = "upper glass"
fabric = "triax-740"
flip = true

[[layer]]
name = "top sheet"
material = "polyamide"
thickness_mm = 0.5

[fabric.triax-740]
resin = "epoxy"
fibre_volume_fraction = 0.48
plies = [
  { fibre = "e-glass", angle_deg = 0, areal_weight_gsm = 370 },
  { fibre = "e-glass", angle_deg = 45, areal_weight_gsm = 185 },
  { ply_material = "own", angle_deg = -45, ply_thickness_mm = 0.16 },
]

[material.own]
note = "a ply of our own"
E1_GPa = 40
E2_GPa = 10
nu12 = 0.27
G12_GPa = 4
G13_GPa = 4
G23_GPa = 3
density_kgm3 = 1900
alpha1_1e6K = 7
alpha2_1e6K = 26
Xt_MPa = 1000
Xc_MPa = 600
Yt_MPa = 40
Yc_MPa = 120
S12_MPa = 80
S13_MPa = 81
S23_MPa = 50

[material.own.source]
all = "our test"
nu12 = "a guess"

[material.spare]
E_GPa = 2
nu = 0.3
density_kgm3 = 1000

[edge]
material = "steel"
width_mm = 2.0
x_mm = [-600, 600]
flange = { width_mm = 6.5, thickness_mm = 0.5, fill = 0.5 }

[sidewall]
material = "abs"
width_mm = 8
x_mm = [-600, 600]

[stance]
width_mm = 560
setback_mm = 12.5
foot_length_mm = 100
foot_width_mm = 110

[mass_only]
resin_gsm = 300
inserts_per_foot = 12
insert_mass_g = 8.5

[rest_shape]
z_mm = [[-782.5, 44], [-567.5, 0], [0, 4.8], [567.5, 0], [787.5, 48]]

[tolerance]
"core.thickness_mm" = 0.05
"core.thickness_mm[3]" = 0.1
"layer.lower glass.areal_weight_scale" = 0.03
"material.e-glass.E_GPa" = 2

[limits]
"nose-twist" = { min = 3.0, max = 5.0 }
mass = { max = 3.4 }
)";
    return text;
}

inline Board read_text_board(const std::string& text) {
    return read_board_text({text, "board.toml", ""}, shipped_library());
}

/// The board of that file.
inline const Board& demo() {
    static const Board board = read_text_board(demo_board_text());
    return board;
}

/// A folder of its own for a test, removed at the end.
class TestFolder {
  public:
    explicit TestFolder(const std::string& name)
        : path_(std::filesystem::temp_directory_path() /
                ("vrid-test-" + name + "-" +
                 std::to_string(::getpid()))) { // tests of one name may run at once
        std::filesystem::remove_all(path_);
        std::filesystem::create_directories(path_);
    }
    TestFolder(const TestFolder&) = delete;
    TestFolder& operator=(const TestFolder&) = delete;
    ~TestFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    [[nodiscard]] std::string path() const { return path_.string(); }
    /// Writes a file into the folder; returns its path.
    [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / name, std::ios::binary) << text;
        return (path_ / name).string();
    }

  private:
    std::filesystem::path path_;
};

/// What is wrong as the user is told, one problem a line; empty if nothing is.
template <class Read> std::string complaint_of(const Read& read) {
    try {
        read();
    } catch (const InputError& error) {
        return error.what();
    }
    return {};
}

} // namespace vrid::tests
