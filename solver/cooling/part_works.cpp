#include "solver/cooling/part_works.hpp"

#include <algorithm>

#include <Eigen/LU>

#include "solver/laminate/stacking.hpp"

namespace vrid {

namespace {

// A flange is of the edge.
std::string name_of(const StackPart<double>& part) {
    const std::string word = word_of(part.kind == PartKind::flange ? PartKind::edge : part.kind);
    return word.empty() ? part.item->layer->name : word;
}

// Parts in the order of the layup; what stands in a layer's place comes after it.
std::vector<std::string> names_of(const Layup<double>& layup) {
    std::vector<std::string> names;
    const Board& board = *layup.board;
    for (const Layer& layer : board.layers) {
        names.push_back(layer.name);
        if (&layer == board.layers.data() && board.edge) {
            names.emplace_back("edge");
        }
        if (layer.kind == LayerKind::core) {
            if (board.sidewall) {
                names.emplace_back("sidewall");
            }
            if (board.tip_spacer) {
                names.emplace_back("tip spacer");
            }
        }
    }
    return names;
}

} // namespace

std::vector<PartSum::FreePly> PartSum::free_plies(const StackKey& key) const {
    std::vector<FreePly> plies;
    visit_stack(layup_, key, 0.0, [&](const StackPart<double>& part) {
        const Index at = std::ranges::find(names_, name_of(part)) - names_.begin();
        const auto add = [&](const Lamina<double>& ply, double thickness, bool core) {
            FreePly one{at, {}, thickness, core};
            one.stress << ply.Qbar * ply.offset, ply.Qbar * ply.expansion,
                ply.Qbar * Eigen::Vector3d(1, 1, 0);
            plies.push_back(one);
        };
        if (part.kind == PartKind::layer) {
            for (const Lamina<double>& ply : part.item->plies) {
                add(ply, ply.thickness, false);
            }
        } else {
            const bool metal = part.kind == PartKind::edge || part.kind == PartKind::flange;
            add(ply_of(part.kind, key, layup_), part.thickness, !metal);
        }
    });
    return plies;
}

PartSum::PartSum(const PlateModel& model, const Layup<double>& layup, const SectionCache& sections,
                 const FreeForces& forces, Index numbers)
    : model_(model), layup_(layup), forces_(forces), numbers_(numbers), names_(names_of(layup)),
      to_points_(geometry_to_points(model.mesh, model.reference.rule.point)),
      quads_(model.mesh.quads.size()) {
    for (const StackKey& key : sections.stacks()) {
        plies_.push_back(free_plies(key));
    }
}

void PartSum::add(int quad, const ElementTables& tables, const MotionStrains& strains,
                  std::size_t first) {
    OfQuad sum;
    sum.works = Eigen::MatrixXd::Zero(3 * static_cast<Index>(names_.size()), numbers_);
    const Eigen::Matrix2Xd at = quad_points(model_.mesh, quad, to_points_);
    Eigen::Matrix<double, 6, Eigen::Dynamic> strain(6, numbers_); // weighted, e above k
    for (Index c = 0; c < at.cols(); ++c) {
        const Index point = quad * at.cols() + c;
        for (Index k = 0; k < numbers_; ++k) {
            strain.col(k) =
                tables.weight(c) * strains[first + static_cast<std::size_t>(k)].col(c).head<6>();
        }
        const double core = core_thickness(layup_, Eigen::Vector2d(at.col(c)));
        double z = 0;
        for (const FreePly& ply :
             plies_[static_cast<std::size_t>(forces_.stack[static_cast<std::size_t>(point)])]) {
            const double t = ply.thickness + (ply.core ? core : 0);
            const double lever = t * (z + t / 2); // int z dz
            sum.works.middleRows<3>(3 * ply.part).noalias() +=
                ply.stress.transpose() * (t * strain.topRows<3>() + lever * strain.bottomRows<3>());
            z += t;
        }
        const Eigen::Matrix3d flat = model_.stiffness[static_cast<std::size_t>(point)].A.inverse();
        const auto mean = [&](const Resultants& of) {
            const Eigen::Vector3d e = flat * of.col(point).head<3>();
            return tables.weight(c) * (e.x() + e.y()) / 2;
        };
        sum.zero += mean(forces_.at_zero);
        sum.kelvin += mean(forces_.per_kelvin);
        sum.area += tables.weight(c);
    }
    quads_[static_cast<std::size_t>(quad)] = std::move(sum);
}

PartWorks PartSum::works() const {
    OfQuad sum = quads_.front();
    for (std::size_t quad = 1; quad < quads_.size(); ++quad) {
        sum.works += quads_[quad].works;
        sum.zero += quads_[quad].zero;
        sum.kelvin += quads_[quad].kelvin;
        sum.area += quads_[quad].area;
    }
    const auto of = [&](Index which) {
        return Eigen::MatrixXd(
            sum.works(Eigen::seqN(which, static_cast<Index>(names_.size()), 3), Eigen::all));
    };
    return {names_, of(0), of(1), of(2), sum.zero / sum.area, sum.kelvin / sum.area};
}

} // namespace vrid
