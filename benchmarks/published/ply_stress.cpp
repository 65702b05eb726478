// Stresses through the thickness of cross-ply plates under a sine load, from the resultants that
// the elements give at a point: over q S2 in plane, over q S across.
#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <numbers>
#include <tuple>

#include "benchmarks/published/check.hpp"
#include "benchmarks/published/laminates.hpp"

namespace vrid::published {

namespace {

using std::numbers::pi;

enum class Lay { three, four, sandwich };

struct PlyRow {
    Lay lay;
    double long_side, span_ratio;
    /// x, y, t: sigma_x at the top, sigma_y at the top of the layer below the top one (sandwich: at
    /// the top), tau_xy at the top at the corner; i: sigma_x inside the upper face; X, Y: tau_xz
    /// and tau_yz at mid-height at the sides
    char what;
    double published, rounding;
    bool solid; ///< three-dimensional elasticity, against our own S; else kappa = 5/6
};

std::vector<StackPly> stack_of(const PlyRow& row) {
    const double h = 1 / row.span_ratio;
    switch (row.lay) {
    case Lay::three:
        return even_stack({0, 90, 0}, h);
    case Lay::four:
        return even_stack({0, 90, 90, 0}, h);
    default:
        return pagano_sandwich(h);
    }
}

// The plate solved once for each degree, for all its numbers.
class Plate {
  public:
    explicit Plate(const PlyRow& row)
        : stack(stack_of(row)), section(stack_section(stack, row.solid ? 0 : 5.0 / 6)),
          b_(row.long_side) {}
    std::vector<StackPly> stack;
    Section<double> section;
    const Bent& at(int p) {
        const auto found = known_.find(p);
        if (found != known_.end()) {
            return found->second;
        }
        const auto load = [this](double x, double y) {
            return std::sin(pi * x) * std::sin(pi * y / b_);
        };
        return known_.emplace(p, bent_laminate(section, 1, b_, false, load, p)).first->second;
    }

  private:
    double b_;
    std::map<int, Bent> known_;
};

// Shear stress at mid-height of the side x = 0 (axis 0) or y = 0 (1) by equilibrium of the part
// below: - int sigma,x + tau,y dz. Normal stresses go like sin sin as the load, tau_xy like cos
// cos.
double middle_shear(const Plate& plate, const PlyRow& row, const Eigen::Vector3d& k, int axis) {
    const Eigen::Vector2d slope(pi, pi / row.long_side); // of sin pi x, sin pi y / b at 0
    double z = -plate.section.thickness / 2;
    double stress = 0;
    for (const StackPly& one : plate.stack) {
        const double top = std::min(z + one.thickness, 0.0);
        if (top > z) {
            const Eigen::Matrix3d q = Qbar(one.ply, one.degrees * pi / 180);
            const double normal = q.row(axis).head<2>().dot(k.head<2>());
            stress -=
                (slope(axis) * normal - slope(1 - axis) * q(2, 2) * k(2)) * (top * top - z * z) / 2;
        }
        z += one.thickness;
    }
    return stress;
}

double number(const PlyRow& row, Plate& plate, int p) {
    const Bent& bending = plate.at(p);
    const Eigen::Matrix3d flexibility = plate.section.D.inverse();
    Eigen::Vector3d k = flexibility * bending.moment(0.5, row.long_side / 2); // centre
    k(2) = (flexibility * bending.moment(0, 0))(2);                           // corner
    if (row.what == 'X' || row.what == 'Y') {
        return middle_shear(plate, row, k, row.what == 'X' ? 0 : 1) / row.span_ratio;
    }
    const std::size_t top = plate.stack.size() - 1;
    const bool below = row.what == 'i' || (row.what == 'y' && row.lay != Lay::sandwich);
    const double z = plate.section.thickness / 2 - (below ? plate.stack.back().thickness : 0);
    const StackPly& ply = plate.stack[row.what == 'y' && below ? top - 1 : top];
    const Eigen::Vector3d stress = Qbar(ply.ply, ply.degrees * pi / 180) * k * z;
    return stress(row.what == 't'   ? 2
                  : row.what == 'y' ? 1
                                    : 0) /
           (row.span_ratio * row.span_ratio);
}

std::string name_of(const PlyRow& row) {
    std::string name = row.lay == Lay::three  ? "(0/90/0)"
                       : row.lay == Lay::four ? "(0/90/90/0)"
                                              : "sandwich";
    name += row.long_side > 1 ? " b = 3 a" : " square";
    name += ", a/h = " + std::to_string(static_cast<int>(row.span_ratio));
    switch (row.what) {
    case 'x':
        name += ", sigma_x at the top";
        break;
    case 'y':
        name += row.lay == Lay::sandwich ? ", sigma_y at the top" : ", sigma_y in the 90 ply";
        break;
    case 't':
        name += ", tau_xy at the top of a corner";
        break;
    case 'i':
        name += ", sigma_x inside the upper face";
        break;
    case 'X':
        name += ", tau_xz at mid-height";
        break;
    default:
        name += ", tau_yz at mid-height";
    }
    return name + (row.solid ? ", 3-D" : ", kappa = 5/6");
}

// All numbers of a plate: sigma_x, sigma_y, tau_xy, tau_xz, tau_yz.
void add(std::vector<PlyRow>& rows, const PlyRow& like, const std::vector<double>& values) {
    const std::string order = "xytXY";
    for (std::size_t k = 0; k < values.size(); ++k) {
        PlyRow row = like;
        row.what = order[k];
        row.published = values[k];
        rows.push_back(row);
    }
}

} // namespace

std::vector<Check> ply_stress() {
    std::vector<PlyRow> rows;
    const auto first_order = [&](Lay lay, double ratio, const std::vector<double>& values) {
        add(rows, {lay, 1, ratio, 'x', 0, 5e-6, false}, values);
    };
    first_order(Lay::three, 4, {0.43698, 0.47745, -0.03692});
    first_order(Lay::three, 10, {0.51341, 0.25361, -0.02517});
    first_order(Lay::three, 100, {0.53841, 0.18039, -0.02132});
    first_order(Lay::four, 10, {0.49888, 0.36142, -0.02413});
    first_order(Lay::four, 100, {0.53822, 0.27045, -0.02132});
    const auto solid = [&](Lay lay, double b, double ratio, const std::vector<double>& values) {
        add(rows, {lay, b, ratio, 'x', 0, 5e-5, true}, values);
    };
    solid(Lay::three, 1, 4, {0.8008, 0.5341, -0.0511, 0.2559, 0.2172});
    solid(Lay::three, 1, 10, {0.5906, 0.2845, -0.0288, 0.3573, 0.1228});
    solid(Lay::three, 1, 20, {0.5524, 0.2092, -0.0234, 0.3846, 0.0938});
    solid(Lay::three, 1, 100, {0.5393, 0.1808, -0.0214, 0.3947, 0.0828});
    solid(Lay::three, 3, 10, {0.7260, 0.0418, -0.0120, 0.4201, 0.0152});
    solid(Lay::three, 3, 100, {0.6244, 0.0253, -0.0083, 0.4393, 0.0108});
    solid(Lay::four, 1, 4, {0.7203, 0.6625, -0.0467, 0.2193, 0.2915});
    solid(Lay::four, 1, 10, {0.5586, 0.4010, -0.0275, 0.3014, 0.1959});
    solid(Lay::four, 1, 100, {0.5388, 0.2710, -0.0214, 0.3388, 0.1389});
    solid(Lay::sandwich, 1, 4, {1.5558, 0.2595, -0.1437, 0.2387, 0.1072});
    solid(Lay::sandwich, 1, 10, {1.1531, 0.1104, -0.0707, 0.2998, 0.0527});
    solid(Lay::sandwich, 1, 20, {1.1098, 0.0700, -0.0510, 0.3174, 0.0361});
    solid(Lay::sandwich, 1, 100, {1.0975, 0.0550, -0.0437, 0.3240, 0.0297});
    rows.push_back({Lay::sandwich, 1, 10, 'i', 0.628, 5e-4, true});
    rows.push_back({Lay::sandwich, 1, 20, 'i', 0.8099, 5e-5, true});
    rows.push_back({Lay::sandwich, 1, 50, 'i', 0.8665, 5e-5, true});
    rows.push_back({Lay::sandwich, 1, 100, 'i', 0.8748, 5e-5, true});
    std::vector<Check> checks;
    std::map<std::tuple<Lay, double, double, bool>, std::shared_ptr<Plate>> plates;
    for (const PlyRow& row : rows) {
        std::shared_ptr<Plate>& plate = plates[{row.lay, row.long_side, row.span_ratio, row.solid}];
        if (!plate) {
            plate = std::make_shared<Plate>(row);
        }
        checks.push_back(
            {name_of(row),
             row.solid
                 ? "Pagano, Exact solutions for rectangular bidirectional composites and "
                   "sandwich plates, 1970; Pagano and Hatfield, 1972 (from memory), recomputed"
                 : "Reddy, Mechanics of Laminated Composite Plates and Shells, 2004, ch. 7 "
                   "(from memory), Navier series recomputed (recompute/navier.py)",
             row.published, row.rounding,
             [row, plate] {
                 return at_three_degrees(6, [&](int p) { return number(row, *plate, p); });
             },
             row.solid ? Kind::other_model : Kind::judged});
    }
    return checks;
}

} // namespace vrid::published
