#pragma once

#include <array>
#include <functional>
#include <memory>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "mesh/board/rest_shape.hpp"
#include "solver/element/plate.hpp"
#include "solver/laminate/layup.hpp"
#include "solver/system/numbering.hpp"

namespace vrid {

/// A mesh at one degree with the section at every integration point: all that K and M are made of.
struct PlateModel {
    Mesh mesh;
    Numbering numbering;
    ReferenceElement reference;
    std::vector<PlateStiffness> stiffness; ///< m a quad, quad by quad
    Eigen::Matrix3Xd inertia;              ///< I0 I1 I2 at the same points
    std::shared_ptr<const RestShape> rest; ///< null: the flat plate
    [[nodiscard]] int unknowns() const { return unknowns_per_node * numbering.nodes; }
};

/// Sections come from the board at the true position of each point, whatever the degree makes of
/// the curved sides.
PlateModel make_model(const Mesh& mesh, int degree, SectionCache& sections);
/// One section everywhere, for checks.
PlateModel make_model(const Mesh& mesh, int degree, const Section<double>& section);

/// Node coordinates of a quad, 2 x n [m].
Eigen::Matrix2Xd element_nodes(const PlateModel& model, int quad);

/// A quad's rows of motions of the whole board, a column each: 5 n unknowns, node by node.
Eigen::MatrixXd quad_part(const PlateModel& model, int quad,
                          const Eigen::Ref<const Eigen::MatrixXd>& u);
/// Adds a quad's nodal forces, 5 n a column, to those of the whole board.
void add_quad_part(const PlateModel& model, int quad, const Eigen::Ref<const Eigen::MatrixXd>& part,
                   Eigen::Ref<Eigen::MatrixXd> force);
/// The sum of all quads' nodal forces on the whole board, unknowns x columns. A quad may give
/// nothing (of size 0). The result does not depend on the number of threads.
Eigen::MatrixXd assembled_forces(const PlateModel& model, Eigen::Index columns, int threads,
                                 const std::function<Eigen::MatrixXd(int quad)>& of_quad);

/// Stiffness at a quad's integration points, m.
std::span<const PlateStiffness> quad_sections(const PlateModel& model, int quad);
/// Tables of a quad, on the rest shape if the model has one.
ElementTables quad_tables(const PlateModel& model, int quad);
/// K_e of a quad, 5n x 5n.
void quad_stiffness(const PlateModel& model, int quad, Eigen::MatrixXd& K);
/// What a quad's mass matrix is made of: element_moments, and for a rest shape those of I1 C and
/// I1 S, which couple bx with u and with w.
std::array<Eigen::MatrixXd, 5> quad_moments(const PlateModel& model, int quad);
/// The same with the quad's nodes elsewhere, 2 x n [m].
std::array<Eigen::MatrixXd, 5> quad_moments(const PlateModel& model, int quad,
                                            const Eigen::Matrix2Xd& nodes);

/// K u over the whole board for each column of u, supports ignored: what the supports and loads
/// must supply [N, N m]. The result does not depend on the number of threads.
Eigen::MatrixXd internal_forces(const PlateModel& model, const Eigen::MatrixXd& u, int threads = 1);

/// Consistent nodal forces of a pressure [N/m2] along w, per Gauss point of every quad.
Eigen::VectorXd pressure_forces(const PlateModel& model,
                                const std::function<double(double x, double y)>& pressure);

/// One stack for the whole quad when its outermost points (q x q of them, 2 x q^2 [m]) agree, else
/// -1: an element of a mesh that follows every border has only one, and asking costs a distance to
/// the outline.
int common_stack(const Eigen::Matrix2Xd& points, int q, SectionCache& sections);

/// Visits every integration point at its true position, with the number of its stack.
using VisitPoint = std::function<void(Eigen::Index point, const Eigen::Vector2d& at, int stack)>;
void visit_points(const Mesh& mesh, const ReferenceElement& reference, SectionCache& sections,
                  const VisitPoint& visit);

/// Integration points of a quad at their true position, 2 x m [m].
Eigen::Matrix2Xd integration_points(const PlateModel& model, int quad);

/// Adds the board's mass-only items to I0 at the integration points (they sit at z = 0: none to I1,
/// I2): resin over the whole planform, each foot's inserts spread over its foot patch.
void add_mass_only(const Board& board, PlateModel& model);

} // namespace vrid
