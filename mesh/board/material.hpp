#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace vrid {

/// Strengths of a material [Pa], compressive ones positive.
struct Strengths {
    std::optional<double> Xt, Xc, Yt, Yc, S12, S13, S23;
};

/// Orthotropic elastic material; 1 is along fibre or grain. An isotropic one has E1 = E2 = E,
/// G12 = G13 = G23 = E / (2 (1 + nu)) and `isotropic` set.
struct Material {
    std::string name;
    bool isotropic = false;
    double E1 = 0, E2 = 0;             ///< Young's moduli [Pa]
    double nu12 = 0;                   ///< Poisson's ratio
    double G12 = 0, G13 = 0, G23 = 0;  ///< shear moduli [Pa]
    double density = 0;                ///< [kg/m3]
    double alpha1 = 0, alpha2 = 0;     ///< thermal expansion [1/K]
    double shrink1 = 0, shrink2 = 0;   ///< of a resin or a ply after gelation [strain]
    double swell1 = 0, swell2 = 0;     ///< strain per change of moisture (1 = 100 points)
    std::optional<double> stress_free; ///< above it a plastic holds no stress [deg C]
    double slow = 1;          ///< share of its stiffness that a creeping plastic shows after hours
    std::optional<double> E3; ///< through the thickness of a core [Pa]
    Strengths strengths;
    std::string note;                          ///< one line: what it is
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
    std::string name;
    std::string resin;                ///< material name, empty if all plies are measured
    double fibre_volume_fraction = 0; ///< 0..1
    std::vector<FabricPly> plies;
    std::string strengths_of; ///< a measured ply whose strengths the fabric takes; empty: none
    double roll_width = 0;    ///< [m]; 0: not told
    std::string note;         ///< one line: what it is
};

} // namespace vrid
