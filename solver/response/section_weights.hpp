#pragma once

#include <vector>

#include <Eigen/Core>

#include "mesh/board/board.hpp"
#include "solver/laminate/layup.hpp"
#include "solver/system/model.hpp"

namespace vrid {

/// A section as one column of 30: A (xx yy ss xy xs ys), B, D likewise, S (yz,yz xz,xz yz,xz), I0
/// I1 I2, forces NF and moments MF of the free strain at a temperature (xx yy ss each); s stands
/// for the shear xy.
constexpr int section_terms = 30;
using SectionTerms = Eigen::Matrix<double, section_terms, 1>;
constexpr int first_shear_term = 18, first_inertia_term = 21, first_free_term = 24;

template <class T>
Eigen::Matrix<T, section_terms, 1> section_column(const Section<T>& s, double celsius = 0) {
    Eigen::Matrix<T, section_terms, 1> column;
    int row = 0;
    for (const Matrix3<T>* m : {&s.A, &s.B, &s.D}) {
        for (const auto& [i, j] : {std::pair{0, 0}, std::pair{1, 1}, std::pair{2, 2},
                                   std::pair{0, 1}, std::pair{0, 2}, std::pair{1, 2}}) {
            column(row++) = (*m)(i, j);
        }
    }
    column(row++) = s.S(0, 0);
    column(row++) = s.S(1, 1);
    column(row++) = s.S(0, 1);
    column(row++) = s.I0;
    column(row++) = s.I1;
    column(row) = s.I2;
    column.template segment<3>(first_free_term) = s.N0 + s.NT * T(celsius);
    column.template segment<3>(first_free_term + 3) = s.M0 + s.MT * T(celsius);
    return column;
}

/// Weights of a section in strain^T C other: e_x e_y e_xy k_x k_y k_xy g_yz g_xz each.
SectionTerms energy_weights(const Eigen::Matrix<double, 8, 1>& strain,
                            const Eigen::Matrix<double, 8, 1>& other);
/// Weights in motion^T (I) other, u v w bx by each: I0 on u v w, I1 between u, bx and v, by.
SectionTerms inertia_weights(const Eigen::Matrix<double, 5, 1>& motion,
                             const Eigen::Matrix<double, 5, 1>& other);

/// A place of the board that has one section: its layers, by key, at a station.
struct SectionPlace {
    int stack = 0;   ///< in SectionWeights::stacks
    double x = 0;    ///< station; with y it tells the core thickness [m]
    double area = 0; ///< of the board that it stands for; 0: none [m2]
    double y = 0;    ///< [m]
    [[nodiscard]] Eigen::Vector2d point() const { return {x, y}; }
};

/// What numbers owe to the section, to first order: the change of number r is the sum over the
/// places of weight(30 place .. + 30, r) . change of the place's section_column.
struct SectionWeights {
    std::vector<StackKey> stacks;
    std::vector<SectionPlace> places;
    Eigen::MatrixXd weight; ///< 30 places x numbers
    Pace pace = Pace::quick;
    double celsius = 0; ///< at which the section's free forces are meant
};

/// The integration points of a model as places, in its order, all weights of the numbers 0.
SectionWeights model_places(const PlateModel& model, SectionCache& sections, Eigen::Index numbers);

/// Adds factor * left^T dK right, supports ignored, to column `number`.
struct EnergyTerm {
    Eigen::VectorXd left;
    Eigen::VectorXd right; ///< empty: as left
    double factor = 1;
    Eigen::Index number = 0;

    [[nodiscard]] bool is_square() const { return right.size() == 0; }
    [[nodiscard]] const Eigen::VectorXd& other() const { return is_square() ? left : right; }
};
void add_energy(const PlateModel& model, const std::vector<EnergyTerm>& terms, int threads,
                SectionWeights& weights);
/// The same with dM.
void add_inertia(const PlateModel& model, const std::vector<EnergyTerm>& terms, int threads,
                 SectionWeights& weights);
/// Adds factor * (int e . dNF + k . dMF) of the strains e, k of `left`, which is `right` too.
void add_free_work(const PlateModel& model, const std::vector<EnergyTerm>& terms, int threads,
                   SectionWeights& weights);

} // namespace vrid
