#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace vrid {

/// Strengths of a material [Pa], compressive ones positive; nothing: not known.
struct Strengths {
    std::optional<double> Xt;  ///< tension along 1
    std::optional<double> Xc;  ///< compression along 1
    std::optional<double> Yt;  ///< tension along 2
    std::optional<double> Yc;  ///< compression along 2
    std::optional<double> S12; ///< shear in the plane
    std::optional<double> S13; ///< shear through the thickness, along 1
    std::optional<double> S23; ///< shear through the thickness, along 2
};

/// Orthotropic elastic material; 1 is along fibre or grain. An isotropic one has E1 = E2 = E,
/// G12 = G13 = G23 = E / (2 (1 + nu)) and `isotropic` set.
struct Material {
    std::string name;                  ///< its key in Board::materials
    bool isotropic = false;            ///< the same in all directions
    double E1 = 0;                     ///< Young's modulus along 1 [Pa]
    double E2 = 0;                     ///< Young's modulus along 2 [Pa]
    double nu12 = 0;                   ///< Poisson's ratio
    double G12 = 0;                    ///< shear modulus in the plane [Pa]
    double G13 = 0;                    ///< shear modulus through the thickness, along 1 [Pa]
    double G23 = 0;                    ///< shear modulus through the thickness, along 2 [Pa]
    double density = 0;                ///< [kg/m3]
    double alpha1 = 0;                 ///< thermal expansion along 1 [1/K]
    double alpha2 = 0;                 ///< thermal expansion along 2 [1/K]
    double shrink1 = 0;                ///< of a resin or a ply after gelation, along 1 [strain]
    double shrink2 = 0;                ///< the same along 2 [strain]
    double swell1 = 0;                 ///< strain per change of moisture along 1 (1 = 100 points)
    double swell2 = 0;                 ///< the same along 2
    std::optional<double> stress_free; ///< above it a plastic holds no stress [deg C]
    double slow = 1;          ///< share of its stiffness that a creeping plastic shows after hours
    std::optional<double> E3; ///< through the thickness of a core [Pa]
    Strengths strengths;      ///< of a ply, a wood, a sheet
    std::string note;         ///< one line: what it is
    std::map<std::string, std::string> source; ///< by key as the file writes it ("E1_GPa")
};

/// One ply of a fabric: fibre and areal weight, or a measured ply material and its thickness.
struct FabricPly {
    double angle = 0;         ///< [rad], from +x towards +y
    std::string fibre;        ///< material name, empty if measured
    double areal_weight = 0;  ///< fibre mass per area [kg/m2]
    std::string ply_material; ///< material name, empty if by fibre and resin
    double ply_thickness = 0; ///< [m]
};

/// A fabric as bought, plies listed upwards.
struct Fabric {
    std::string name;                 ///< its key in Board::fabrics
    std::string resin;                ///< material name, empty if all plies are measured
    double fibre_volume_fraction = 0; ///< 0..1
    std::vector<FabricPly> plies;     ///< upwards
    std::string strengths_of; ///< a measured ply whose strengths the fabric takes; empty: none
    double roll_width = 0;    ///< [m]; 0: not told
    std::string note;         ///< one line: what it is
};

} // namespace vrid
