#include "io/toml/board_keys.hpp"

#include <algorithm>

namespace vrid {

namespace {

// Upper bounds are far beyond any board and any material: they catch a wrong unit, not a bold
// design. A board is at most 5 m long and 200 mm thick; lab coupons and benchmark plates fit too.
// Lengths and widths of a planform begin at 1 mm, far above the places that are one
// (same_place.hpp).
constexpr Bounds modulus{1e-5, 2000}; // up to above diamond [GPa]
constexpr Bounds shear_modulus{1e-6, 2000};
constexpr Bounds strength{0, 20000, true}; // up to above any fibre [MPa]
constexpr Bounds expansion{-100, 1000};
constexpr Bounds turn{-360, 360};

constexpr std::string_view required = "required";
constexpr std::string_view parametric = "required without another outline";
constexpr std::string_view one_of_three = "one of material, fabric and core";

using enum KeyForm;

const std::vector<BoardKey> rows{
    {"", "format", number, bounds(0, 1e6), required, "version of the format: 1", "1"},
    {"", "name", text, no_bounds, required, "what the board is called in every result",
     "\"Tarn 156\""},
    {"", "planform", table, no_bounds, required, "the outline, seen from above", ""},
    {"", "core", table, no_bounds, "required with a layer core = true", "thickness and strips", ""},
    {"", "layer", tables, no_bounds, required, "layers from the running surface upwards", ""},
    {"", "fabric", tables, no_bounds, "", "own fabrics by name, over those of the library", ""},
    {"", "material", tables, no_bounds, "", "own materials by name, over those of the library", ""},
    {"", "edge", table, no_bounds, "", "metal that replaces the base along the outline", ""},
    {"", "sidewall", table, no_bounds, "", "what replaces the core along the outline", ""},
    {"", "tip_spacer", table, no_bounds, "", "what replaces the core beyond two stations", ""},
    {"", "stance", table, no_bounds, "", "where the feet are; most bench cases need it", ""},
    {"", "mass_only", table, no_bounds, "",
     "counts in mass, balance point and modes, not in stiffness", ""},
    {"", "rest_shape", table, no_bounds, "",
     "running surface of the unloaded board: camber, rocker", ""},
    {"", "limits", tables, no_bounds, "",
     "what a number must stay within, by its name, in bench units", ""},
    {"", "tolerance", table, no_bounds, "",
     "one standard deviation by path or pattern, or a text \"3 %\"", ""},

    {"planform", "running_length_mm", number, bounds(1, 5000),
     "required; of a rectangle its length",
     "between the contact stations, which lie at x = +- half of it", "1160"},
    {"planform", "contact_left_mm", pair, any_station, "as running_length_mm has them",
     "contact stations of the left edge, tail and nose, where its edge hold is told",
     "[-575, 590]"},
    {"planform", "contact_right_mm", pair, any_station, "as running_length_mm has them",
     "the same of the right edge", "[-590, 575]"},
    {"planform", "waist_width_mm", number, bounds(1, 2000), parametric, "full width at the waist",
     "252"},
    {"planform", "nose_width_mm", number, bounds(1, 2000), parametric,
     "full width at the nose contact station", "296"},
    {"planform", "tail_width_mm", number, bounds(1, 2000), parametric,
     "full width at the tail contact station", "292"},
    {"planform", "waist_x_mm", number, any_station, "0", "station of the waist", "-10"},
    {"planform", "nose_length_mm", number, bounds(1, 2000), parametric, "contact station to tip",
     "205"},
    {"planform", "tail_length_mm", number, bounds(1, 2000), parametric, "contact station to tip",
     "195"},
    {"planform", "nose_fullness", number, bounds(0.2, 0.9), "0.55",
     "how full the nose is: 0.2 pointed, 0.9 square", "0.56"},
    {"planform", "tail_fullness", number, bounds(0.2, 0.9), "0.55", "how full the tail is", "0.56"},
    {"planform", "outline_csv", text, no_bounds, "",
     "drawn outline instead: a file of points x_mm,y_mm beside this one; x_mm;y_mm with decimal "
     "commas",
     "\"outline.csv\""},
    {"planform", "half", flag, no_bounds, "false",
     "true: the drawn outline is one half, its mirror image the other", "true"},
    {"planform", "outline_tolerance_mm", number, bounds(0, 5), "half the file's last digit",
     "how far drawn points may move along x and y; 0 keeps them", "0.5"},
    {"planform", "rectangle_mm", pair, bounds(1, 5000), "",
     "a coupon instead: length along x, width", "[300, 40]"},
    {"planform", "polygon_mm", points, any_station, "",
     "a plate with straight sides instead: its corners",
     "[[-150, -20], [150, -20], [150, 20], [-150, 20]]"},

    {"core", "interpolation", text, no_bounds, "\"smooth\"",
     "between stations: \"smooth\" or \"linear\"", "\"smooth\""},
    {"core", "thickness_mm", stations, bounds_above(0, 200), required,
     "[station, thickness]; constant beyond the ends", "[[-580, 2.6], [0, 7.4], [580, 2.6]]"},
    {"core", "strips", tables, no_bounds, "required without strips_left and strips_right",
     "from the centre line outwards, repeated to the sidewall",
     "[{ material = \"poplar\", width_mm = 18 }]"},
    {"core", "resolve", flag, no_bounds, "false",
     "true: every strip border is a line of the mesh; else strips are smeared", "false"},
    {"core.strips", "material", text, no_bounds, required, "name of a material", "\"poplar\""},
    {"core.strips", "width_mm", number, bounds(0.1, 1000), required, "across the board", "18"},
    {"core.strips", "x_mm", pair, any_station, "",
     "only between these stations; elsewhere fill, or the first strip's material", "[-420, 420]"},

    {"layer", "name", text, no_bounds, required, "unique among the layers", "\"base\""},
    {"layer", "material", text, no_bounds, one_of_three, "a sheet of this material", "\"uhmwpe\""},
    {"layer", "thickness_mm", number, bounds_above(0, 200), "required with material",
     "of the sheet", "1.3"},
    {"layer", "fabric", text, no_bounds, one_of_three, "a fabric: its plies give the thickness",
     "\"triax-680\""},
    {"layer", "core", flag, no_bounds, "false", "true: here lies the core", "true"},
    {"layer", "angle_deg", number, turn, "0", "turns the layer from +x towards +y, seen from above",
     "0"},
    {"layer", "flip", flag, no_bounds, "false",
     "true: the roll turned over, plies in opposite order, angles negated", "false"},
    {"layer", "zone", table, no_bounds, "", "where the layer is; without one it is everywhere",
     "{ x_mm = [250, 640], y_mm = [20, 70] }"},
    {"layer", "mirror", flag, no_bounds, "false",
     "true: also the mirror image at -y, every ply angle negated", "false"},
    {"layer.zone", "x_mm", pair, any_station, "", "between these stations", "[250, 640]"},
    {"layer.zone", "y_mm", pair, any_station, "",
     "between these distances from the centre line, left is +", "[20, 70]"},
    {"layer.zone", "from_mm", pair, any_station, "", "ribbon: where its centre line begins, [x, y]",
     "[330, 20]"},
    {"layer.zone", "to_mm", pair, any_station, "required with from_mm",
     "ribbon: where it ends; 0 degrees run along it", "[545, 120]"},
    {"layer.zone", "width_mm", number, bounds_above(0, 2000), "required with from_mm",
     "ribbon: its width", "30"},
    {"layer.zone", "outline_mm", pair, bounds(0, 2000), "",
     "band between these distances from the outline", "[0, 25]"},

    {"fabric", "note", text, no_bounds, "", "what it is, in words",
     "\"triax of the lower laminate\""},
    {"fabric", "resin", text, no_bounds, "required with a fibre", "name of a material",
     "\"epoxy\""},
    {"fabric", "fibre_volume_fraction", number, bounds(0.05, 0.9), "required with a fibre",
     "of the laminated fabric", "0.48"}, // round fibres touch at 0.907
    {"fabric", "roll_width_mm", number, bounds_above(0, 10000), "",
     "of the roll it is bought on: vrid sheet tells how much of it a board takes", "1270"},
    {"fabric", "strengths_of", text, no_bounds, "", "a measured ply whose strengths it takes",
     "\"e-glass-epoxy-ud-45\""},
    {"fabric", "plies", tables, no_bounds, required, "upwards",
     "[{ fibre = \"e-glass\", angle_deg = 0, areal_weight_gsm = 340 }]"},
    {"fabric.plies", "angle_deg", number, turn, required, "from +x towards +y, seen from above",
     "45"},
    {"fabric.plies", "fibre", text, no_bounds, "required without ply_material",
     "name of a material", "\"e-glass\""},
    {"fabric.plies", "areal_weight_gsm", number, bounds(1, 20000), "required with fibre",
     "of the dry fibres", "340"},
    {"fabric.plies", "ply_material", text, no_bounds, "",
     "a measured ply instead: name of a material", "\"e-glass-epoxy-ud\""},
    {"fabric.plies", "ply_thickness_mm", number, bounds(0.001, 50), "required with ply_material",
     "of the measured ply", "0.25"},

    {"material", "note", text, no_bounds, "", "what it is, in words", "\"poplar of our mill\""},
    {"material", "E_GPa", number, modulus, "required when isotropic", "Young's modulus", "2"},
    {"material",
     "nu",
     number,
     {-1, 0.5, true, true},
     "required when isotropic",
     "Poisson's ratio",
     "0.35"},
    {"material", "E1_GPa", number, modulus, "required otherwise",
     "Young's modulus along fibre or grain", "10.9"},
    {"material", "E2_GPa", number, modulus, "required otherwise", "Young's modulus across", "0.8"},
    {"material", "nu12", number, bounds(-10, 10), "required otherwise",
     "contraction across when pulled along; below sqrt(E1/E2)", "0.35"},
    {"material", "G12_GPa", number, shear_modulus, "required otherwise",
     "shear modulus in the plane", "0.75"},
    {"material", "G13_GPa", number, shear_modulus, "required otherwise", "transverse shear along",
     "0.7"},
    {"material", "G23_GPa", number, shear_modulus, "required otherwise",
     "transverse shear across (rolling)", "0.12"},
    {"material", "E3_GPa", number, modulus, "", "Young's modulus through the thickness of a core",
     "0.5"},
    {"material", "density_kgm3", number, bounds(1, 25000), required, "density", "420"},
    {"material", "alpha1_1e6K", number, expansion, "",
     "thermal expansion along, or in all directions", "4"},
    {"material", "alpha2_1e6K", number, expansion, "", "thermal expansion across", "30"},
    {"material", "Xt_MPa", number, strength, "", "tensile strength along", "70"},
    {"material", "Xc_MPa", number, strength, "", "compressive strength along, a positive number",
     "35"},
    {"material", "Yt_MPa", number, strength, "", "tensile strength across", "3"},
    {"material", "Yc_MPa", number, strength, "", "compressive strength across, a positive number",
     "5"},
    {"material", "S12_MPa", number, strength, "", "shear strength in the plane", "7"},
    {"material", "S13_MPa", number, strength, "", "transverse shear strength along", "7"},
    {"material", "S23_MPa", number, strength, "", "transverse shear strength across", "2"},
    {"material", "source", table, no_bounds, "", "where the values are from, by key or for all",
     "{ all = \"our bench, 2025\" }"},
    {"material.source", "all", text, no_bounds, "",
     "source of every value that has none of its own", "\"our bench, 2025\""},

    {"edge", "material", text, no_bounds, required, "name of a material", "\"steel\""},
    {"edge", "width_mm", number, bounds_above(0, 1000), required,
     "distance from the outline up to which it replaces the base", "2.0"},
    {"edge", "x_mm", pair, any_station, "", "between these stations; without it all round",
     "[-600, 600]"},
    {"edge", "flange", table, no_bounds, "", "the edge's teeth: lie on the base inside the edge",
     "{ width_mm = 6.5, thickness_mm = 0.5, fill = 0.5 }"},
    {"edge.flange", "width_mm", number, bounds_above(0, 1000), required, "inwards from the edge",
     "6.5"},
    {"edge.flange", "thickness_mm", number, bounds_above(0, 50), required, "of the teeth", "0.5"},
    {"edge.flange", "fill", number, bounds_above(0, 1), "1", "share of metal in the row of teeth",
     "0.5"},

    {"sidewall", "material", text, no_bounds, required, "name of a material", "\"abs\""},
    {"sidewall", "width_mm", number, bounds_above(0, 1000), required,
     "distance from the outline up to which it replaces the core", "8"},
    {"sidewall", "x_mm", pair, any_station, "", "between these stations; without it all round",
     "[-600, 600]"},

    {"tip_spacer", "material", text, no_bounds, required, "name of a material", "\"abs\""},
    {"tip_spacer", "x_mm", pair, any_station, required,
     "replaces the core beyond these two stations", "[-660, 665]"},

    {"stance", "width_mm", number, bounds_above(0, 2000), required, "foot to foot", "540"},
    {"stance", "setback_mm", number, bounds(-1000, 1000), "0",
     "middle of the stance, towards the tail", "15"},
    {"stance", "foot_length_mm", number, bounds_above(0, 1000), required,
     "of the foot patch, along x", "100"},
    {"stance", "foot_width_mm", number, bounds_above(0, 1000), required,
     "of the foot patch, along y", "110"},

    {"mass_only", "resin_gsm", number, bounds(0, 10000), "0", "glue lines over the whole planform",
     "300"},
    {"mass_only", "inserts_per_foot", whole, bounds(0, 1000), "0", "in each foot patch", "12"},
    {"mass_only", "insert_mass_g", number, bounds_above(0, 1000), "required with inserts_per_foot",
     "of one insert", "8.5"},

    {"rest_shape", "z_mm", stations, bounds(-1000, 1000), required,
     "[station, height above the snow plane]; beyond the ends level, straight on where it rises",
     "[[-775, 42], [-580, 0], [0, 6], [580, 0], [785, 45]]"},

    {"limits", "min", number, bounds(-1e12, 1e12), "min, max or both", "least that is accepted",
     "3.0"},
    {"limits", "max", number, bounds(-1e12, 1e12), "min, max or both", "most that is accepted",
     "5.0"},
};

} // namespace

bool BoardKey::holds_numbers() const {
    return form == number || form == whole || form == pair || form == stations || form == points;
}

const std::vector<BoardKey>& board_keys() {
    static const std::vector<BoardKey> all =
        with_alike_tables(with_rows(with_rows(rows, construction_keys()), cure_keys()));
    return all;
}

std::vector<std::string> board_tables() {
    std::vector<std::string> tables;
    for (const BoardKey& key : board_keys()) {
        if (tables.empty() || tables.back() != key.table) {
            tables.emplace_back(key.table);
        }
    }
    return tables;
}

const BoardKey* find_board_key(std::string_view table, std::string_view key) {
    const std::vector<BoardKey>& all = board_keys();
    const auto found = std::ranges::find_if(
        all, [&](const BoardKey& row) { return row.table == table && row.key == key; });
    return found == all.end() ? nullptr : &*found;
}

} // namespace vrid
