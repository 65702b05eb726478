#pragma once

#include <optional>
#include <vector>

#include <Eigen/Core>

#include "mesh/mesh.hpp"
#include "solver/laminate/layup.hpp"
#include "solver/strength/quad_places.hpp"
#include "solver/system/model.hpp"

namespace vrid {

/// Strains of a motion at k x k Lobatto points of every quad, xi fastest: e_x e_y e_xy k_x k_y k_xy
/// g_yz g_xz [-, 1/m].
using StrainField = std::vector<Eigen::Matrix<double, 8, Eigen::Dynamic>>;
constexpr int strain_points = 6; ///< k: exact up to degree 5 on straight-sided quads

/// Their places along a side, -1 to 1.
const Eigen::VectorXd& strain_nodes();

/// \param u 5 a node [m, rad]
StrainField strain_field(const PlateModel& model, const Eigen::VectorXd& u);
/// The same of a motion of any size, on the rest shape or from the flat blank.
StrainField bent_strain_field(const PlateModel& model, const Eigen::VectorXd& u);

/// A disc's diameter: the thickness there, but not below this [m].
constexpr double least_diameter = 4e-3;

/// A part of a disc that lies in one quad.
struct DiscPart {
    int quad = 0;
    double area = 0;        ///< [m2]
    Eigen::VectorXd weight; ///< of the quad's strain points; they add up to the area
};

/// A disc about a place, as far as it has the stack of its middle: cut at the outline and where the
/// stack changes. Means over it exist and converge where the plate's stress is infinite: the
/// average stress of Whitney and Nuismer (1974), J. Composite Materials 8.
struct Disc {
    Eigen::Vector2d centre{0, 0}; ///< [m]
    int quad = 0;
    int stack = 0;          ///< of the SectionCache
    double diameter = 0;    ///< the local thickness, at least 4 mm [m]
    std::vector<int> homes; ///< all quads with that stack that the middle is in or on the side of
    std::vector<DiscPart> parts;
};

/// Mean strain over the disc without the quads that are held; nothing if its middle is
/// inside of them.
/// \param held a flag a quad
std::optional<Eigen::Matrix<double, 8, 1>> mean_strain(const Disc& disc, const StrainField& strain,
                                                       const std::vector<char>& held);

/// The nodal forces whose work with a motion is `by` times its mean strain over the disc: the
/// adjoint of mean_strain. \param by one a component \param held as there
Eigen::VectorXd mean_strain_load(const PlateModel& model, const Disc& disc,
                                 const std::vector<char>& held,
                                 const Eigen::Matrix<double, 8, 1>& by);

/// Makes discs on a mesh. Not for two threads at once.
class DiscMaker {
  public:
    /// Both must outlive this.
    DiscMaker(const Mesh& mesh, SectionCache& sections);

    /// The disc about a point; nothing if no quad with that stack holds it. \param stack -1: any
    /// \param scale of its diameter
    std::optional<Disc> at(const Eigen::Vector2d& point, int stack = -1, double scale = 1);
    /// Discs all over the board, no more than 15 mm apart, vertices and sides of quads included.
    std::vector<Disc> all();
    /// Whether a quad with that stack holds the point.
    bool holds(const Eigen::Vector2d& point, int stack) {
        return find(point, stack, -1).has_value();
    }

  private:
    struct Spot {
        int quad;
        Eigen::Vector2d xi;
    };
    int stack_at(const Spot& spot, const Eigen::Vector2d& p);
    std::optional<Spot> find(const Eigen::Vector2d& p, int stack, int first_quad);
    Disc disc(const Spot& spot, const Eigen::Vector2d& p, int stack, double scale = 1);
    void find_homes(Disc& disc);
    void add_part(Disc& disc, int quad, const std::vector<AreaPoint>& points);

    SectionCache& sections_;
    QuadPlaces places_;
    std::vector<int> stack_; ///< by quad; -1: several
};

} // namespace vrid
