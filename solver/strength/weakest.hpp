#pragma once

#include <functional>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include <Eigen/Geometry>

#include "solver/strength/discs.hpp"
#include "solver/strength/point_laminate.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

/// What a case holds and loads, as far as places beside it are concerned.
struct HeldParts {
    std::vector<char> quads;   ///< a flag a quad: every motion across the plate is prescribed
    std::vector<double> lines; ///< stations of lines that are held or loaded, rising [m]
    std::vector<Eigen::AlignedBox2d> boxes = {}; ///< held rectangles [m]
    std::vector<Eigen::Vector2d> loaded = {};    ///< places on a loaded curve, close together [m]
};

/// The factor on a stress that has this index, at which it fails: 1 / sqrt(index) by tsai_hill,
/// 1 / index by max_stress.
double factor_of(double index, Criterion criterion);
double index_of(double factor, Criterion criterion);

/// How far a place is from the nearest of them; infinite without any [m].
double distance_to(const HeldParts& held, const Eigen::Vector2d& at);

HeldParts held_parts(const PlateModel& model, const Loading& loading);

/// What is there at a place before any load; see PointResidual.
using ResidualAt = std::function<PointResidual(const Disc& disc, const PointLaminate& point)>;

/// A failure at a place of the board.
struct Weakness {
    double factor = HUGE_VAL; ///< on the case's motion, or as WeakestSearch::as_it_is
    int sign = 1;             ///< +1 as the case loads, -1 against it
    int layer = 0;            ///< in JudgedLayup::layers
    int ply = 0;              ///< JudgedPly::number
    std::size_t part = 0;     ///< in JudgedPly::parts
    double angle = 0;         ///< of the ply [rad]
    FailureMode mode = FailureMode::fibre_tension;
    bool breaking = false;    ///< see breaks()
    double z = 0;             ///< [m]
    Eigen::Vector2d at{0, 0}; ///< [m]
    int stack = 0;
    double diameter = 0;     ///< of the disc [m]
    double aside = HUGE_VAL; ///< from the nearest held or loaded line [m]
    /// The stress that would break it over the largest, each by its strength: 1 where it breaks, 0
    /// where none would.
    double along = 1;
    /// Called after the stress that would break it, though another is as much as a quarter larger;
    /// the factor is that of the other over `along`, so that it runs on where the name changes.
    [[nodiscard]] bool almost() const { return breaking && along < 1; }
};

/// Layer and mode.
using Way = std::pair<int, FailureMode>;

/// The weakest place for every way, anywhere and farther than the disc's diameter from all held and
/// loaded lines.
struct Weakest {
    std::map<Way, Weakness> anywhere, away;
    /// Places nearly as weak as one of these, by way, those that almost break too: among the discs;
    /// of a way that was refined, those that it came to elsewhere.
    std::map<Way, std::vector<Weakness>> others = {};
};

/// Keeps the smaller factor; of equal ones, as on both sides of a symmetric board, the left.
void keep_least(std::map<Way, Weakness>& known, const Weakness& one);

/// Whether a walk from there may come lower than the least of the same way.
inline bool nearly_as_weak(const Weakness& one, const Weakness& least) {
    return one.factor <= 1.3 * least.factor;
}

/// Keeps it among the others if it is nearly as weak as the weakest of its way.
void keep_near(Weakest& known, const Weakness& one);

/// Whether the board is broken after it: fibres, wood in tension, the core or a bond sheared
/// through, a wrinkled face, a metal edge that has yielded. A crack across a ply or crushed grain
/// is not.
bool breaks(FailureMode mode, MaterialFamily family);

/// All that the search of one board on one mesh shares.
class WeakestSearch {
  public:
    /// All must outlive this.
    WeakestSearch(const Layup<double>& layup, const JudgedLayup& judged, const Mesh& mesh,
                  Criterion criterion);
    ResidualAt residual = nullptr; ///< null: none
    /// The motion is what is there: factors are those on all the stress, residual stress too, and
    /// the least has the largest index.
    bool as_it_is = false;

    /// A motion of the board and what holds it.
    struct Motion {
        const StrainField& strain;
        const HeldParts& held;
        std::vector<int> signs{1, -1};
    };
    /// One a motion, among the discs all over the board.
    std::vector<Weakest> over_board(const std::vector<Motion>& motions);
    /// Moves each place of the ways downhill, to a quarter of a millimetre or, polished, until the
    /// factor is good to some 1e-6.
    void refine(const Motion& motion, const std::vector<Way>& ways, Weakest& weakest,
                bool polished);
    /// The weakest at a point for one way; nothing where the way is none.
    /// \param part only of its part of a ply, but also what almost breaks; null: of all parts
    std::optional<Weakness> at(const Motion& motion, const Eigen::Vector2d& point, int stack,
                               const Way& way, const Weakness* part = nullptr);
    /// The factor of the very same failure, at its place, under another motion, whatever stress is
    /// the largest there and names it; nothing where it is none.
    /// \param breaking as a place that breaks, over Weakness::along
    std::optional<double> again(const Motion& motion, const Weakness& failure, bool breaking);
    /// The largest index at `factor` on the motion, by the criterion or by shear through the
    /// thickness or wrinkling, and the sign of the load it is at.
    std::pair<double, int> largest_index(const Motion& motion, double factor);
    /// The largest index at a known place under the motion itself.
    double index_at(const Motion& motion, const Weakness& place);
    [[nodiscard]] const std::vector<Disc>& discs() const { return discs_; }
    DiscMaker& maker() { return maker_; }
    [[nodiscard]] const StackKey& key(int stack) const {
        return sections_.stacks()[static_cast<std::size_t>(stack)];
    }

    /// What a motion does over a disc; nothing if all of it is held.
    std::optional<PointLoad> load_at(const Motion& motion, const Disc& disc,
                                     const PointLaminate& point) const;
    PointLaminate point_at(const Disc& disc);

  private:
    struct WalkRule {
        Way way;
        bool away;       ///< stays farther than the disc's diameter from all held and loaded lines
        bool almost;     ///< goes over those of the same part that almost break
        double from, to; ///< steps [m]
    };
    std::optional<Eigen::Vector2d> step_to(const Weakness& place, const Eigen::Vector2d& step);
    /// \return of a walk over what almost breaks: the weakest on it that does
    std::optional<Weakness> walk(const Motion& motion, const WalkRule& rule, Weakness& place);
    void judge(const Motion& motion, const Disc& disc, const PointLaminate& point,
               const std::function<void(const Weakness&)>& visit);

    const Layup<double>& layup_;
    const JudgedLayup& judged_;
    Criterion criterion_;
    SectionCache sections_;
    DiscMaker maker_;
    std::vector<Disc> discs_;
};

} // namespace vrid
