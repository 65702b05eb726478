#include "solver/loaded_edge.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace vrid {

namespace {

constexpr double wanted = 1e-3;      // of use
constexpr double longest_step = 2.1; // of ln load: eightfold
constexpr double least_load = 1e-3;  // of the start
constexpr double narrowest = 1e-3;   // between a load with a state and one without
constexpr int most_tries = 30;

// Both as logarithms.
struct Point {
    double load = 0, use = 0;
};

class Search {
  public:
    Search(double start, double most, const std::function<LoadTry(double)>& at)
        : at_(at), first_(std::log(start)), most_(std::log(most)) {}

    RaisedLoad run() {
        double load = first_;
        while (found_.tries < most_tries) {
            const LoadTry one = at_(std::exp(load));
            ++found_.tries;
            if (!one.why_not.empty()) {
                lost_ = load;
                why_ = one.why_not;
            } else {
                take({load, std::log(std::max(one.use, 1e-12))});
                if (std::abs(last_.use) <= wanted) {
                    return finish("");
                }
            }
            if (const std::string end = ended(); !end.empty()) {
                return finish(end);
            }
            load = next();
        }
        return finish("no load was found in " + std::to_string(most_tries) + " tries");
    }

  private:
    void take(const Point& point) {
        if (known_ && std::abs(point.load - last_.load) > 1e-9) {
            growth_ = std::clamp((point.use - last_.use) / (point.load - last_.load), 0.1, 4.0);
        }
        last_ = point;
        known_ = true;
        (point.use < 0 ? below_ : above_) = point.load;
    }

    [[nodiscard]] std::string ended() const {
        if (!known_) {
            return why_; // not even the first
        }
        if (last_.use < 0 && last_.load >= most_ - 1e-9) {
            return "it is the largest load that is tried";
        }
        if (last_.use > 0 && last_.load <= first_ + std::log(least_load)) {
            return "even a thousandth of the load is too much";
        }
        if (lost_ - below_ < narrowest && !std::isfinite(above_)) {
            return why_;
        }
        return "";
    }

    [[nodiscard]] double next() const {
        const double top = std::min({above_, lost_, most_});
        double load = last_.load + std::clamp(-last_.use / growth_, -longest_step, longest_step);
        load = std::clamp(load, first_ + std::log(least_load), most_);
        if (load >= lost_) {
            return (below_ + lost_) / 2;
        }
        const bool between = std::isfinite(below_) && std::isfinite(above_);
        return between && (load <= below_ || load >= top) ? (below_ + top) / 2 : load;
    }

    RaisedLoad finish(const std::string& why_not) {
        found_.load = std::exp(last_.load);
        found_.use = std::exp(last_.use);
        found_.growth = growth_;
        found_.why_not = why_not;
        return found_;
    }

    const std::function<LoadTry(double)>& at_;
    double first_, most_;
    RaisedLoad found_;
    Point last_;
    bool known_ = false;
    double growth_ = 1;
    double below_ = -std::numeric_limits<double>::infinity(); // loads with use below 1
    double above_ = std::numeric_limits<double>::infinity();  // above it
    double lost_ = std::numeric_limits<double>::infinity();   // without a state
    std::string why_;
};

HeldParts on_feet(const FootedPlate& plate) {
    HeldParts held;
    for (const auto* foot : {&plate.feet.rear, &plate.feet.front}) {
        Eigen::AlignedBox2d box;
        for (const int node : *foot) {
            box.extend(Eigen::Vector2d(plate.model.numbering.position.col(node)));
        }
        held.boxes.push_back(box);
    }
    for (const std::vector<int>& nodes : plate.model.numbering.quad_nodes) {
        const bool all = std::ranges::all_of(nodes, [&](int node) {
            return plate.factor.fixed[static_cast<std::size_t>(unknowns_per_node) *
                                          static_cast<std::size_t>(node) +
                                      comp_w] != 0;
        });
        held.quads.push_back(all ? 1 : 0);
    }
    return held;
}

} // namespace

RaisedLoad raise_load(double start, double most, const std::function<LoadTry(double)>& at) {
    return Search(start, most, at).run();
}

LoadedEdges::LoadedEdges(const Board& board, EdgeOptions options, PlateModel model,
                         std::shared_ptr<const EliminationTree> tree)
    : options_(std::move(options)),
      plate_(on_its_feet(board, std::move(model), std::move(tree),
                         {options_.thread_count(), options_.memory.get()})),
      feet_(on_feet(plate_)), pass_(board, plate_, options_) {}

LoadedEdge LoadedEdges::at(const EdgeCondition& condition) {
    LoadedEdge edge{pass_.condition(condition, nullptr, seconds_), {}, feet_};
    if (!edge.result.no_equilibrium.empty()) {
        return edge;
    }
    pass_.add_motion(edge.result);
    edge.strain = condition.bent ? bent_strain_field(plate_.model, edge.result.motion)
                                 : strain_field(plate_.model, edge.result.motion);
    const EdgeCurve& curve = edge.result.curve;
    for (Eigen::Index i = 0; i < curve.q.size(); ++i) {
        if (curve.q(i) > 0) {
            edge.held.loaded.emplace_back(curve.x(i), curve.y(i));
        }
    }
    return edge;
}

} // namespace vrid
