#include "solver/bend_pass.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <optional>
#include <sstream>
#include <utility>

#include "mesh/board/board.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/bend_path.hpp"
#include "solver/bend_weights.hpp"
#include "solver/bent_limits.hpp"
#include "solver/bent_turn.hpp"
#include "solver/system/eigenvalues.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

namespace {

// Which twists are asked of the board while a case bends it. Centre down, tips up.
struct BendingKind {
    const char* name;
    double sign; // of w
    std::array<const char*, 2> twists;
};
constexpr std::array bending_kinds{BendingKind{"centre-flex", -1, {"stance-twist", "full-twist"}},
                                   BendingKind{"nose-flex", 1, {"nose-twist", ""}},
                                   BendingKind{"tail-flex", 1, {"tail-twist", ""}}};

const BenchCase* named(const std::vector<const BenchCase*>& cases, const std::string& name) {
    const auto found =
        std::ranges::find_if(cases, [&](const BenchCase* one) { return one->info.name == name; });
    return found == cases.end() ? nullptr : *found;
}

void warn(const BendingKind& kind, const BentState& state, std::vector<std::string>& warnings) {
    const auto passed =
        bent_warnings(std::string(kind.name) + " bent", state.least_c, state.most_strain);
    warnings.insert(warnings.end(), passed.begin(), passed.end());
}

// What tells w of the loaded line at its right edge, its left edge and its middle, of a motion:
// unknowns x 3. The long axis is a mesh line: the middle is the same place at every degree.
using OfLine = Eigen::Matrix<double, Eigen::Dynamic, 3>;
OfLine of_line(const PlateModel& model, const Loading& loading) {
    int low = -1;
    int high = -1;
    int middle = -1;
    const auto y = [&](int node) { return model.numbering.position(1, node); };
    for (int node = 0; node < model.numbering.nodes; ++node) {
        if (loading.force(unknown(node, comp_w)) == 0) {
            continue;
        }
        low = low < 0 || y(node) < y(low) ? node : low;
        high = high < 0 || y(node) > y(high) ? node : high;
        middle = middle < 0 || std::abs(y(node)) < std::abs(y(middle)) ? node : middle;
    }
    OfLine places = OfLine::Zero(model.unknowns(), 3);
    places(unknown(low, comp_w), 0) = 1;
    places(unknown(high, comp_w), 1) = 1;
    places(unknown(middle, comp_w), 2) = 1;
    return places;
}

// A board at one degree, and which of its numbers are to tell what they owe to the section.
struct Task {
    const Board& board;
    const LargeMotionModel& bent;
    const EliminationTree& tree;
    const Settings& settings;
    const std::vector<std::string>& weighed;
    std::shared_ptr<const SectionWeights> places; // null: no weights wanted
    [[nodiscard]] int threads() const { return settings.thread_count(); }
    [[nodiscard]] bool weighs(const std::string& number) const { return contains(weighed, number); }
};

// Of a case's numbers those that are wanted, each by its own function.
using WeightsOf = std::vector<std::pair<std::string, std::function<NumberWeights()>>>;
void set_weights(const Task& task, const WeightsOf& numbers, BentCase& bent) {
    std::vector<NumberWeights> columns;
    for (const auto& [name, weights_of] : numbers) {
        if (task.weighs(name)) {
            bent.weighed.push_back(name);
            columns.push_back(weights_of());
        }
    }
    if (columns.empty()) {
        return;
    }
    SectionWeights weights = *task.places;
    weights.weight.resize(columns.front().size(), static_cast<Index>(columns.size()));
    for (std::size_t i = 0; i < columns.size(); ++i) {
        weights.weight.col(static_cast<Index>(i)) = columns[i];
    }
    bent.weights = std::make_shared<const SectionWeights>(std::move(weights));
}

// Where a path stands. `weights`: null if none are wanted.
struct Stop {
    const BendPath& path;
    const BendWeights* weights;
};

BentCase bending_case(const Task& task, const Stop& stop, const BendingKind& kind,
                      const VectorXd& flat) {
    const BendPath& path = stop.path;
    const double travel = path.travel();
    BentCase bent{kind.name, travel, {}, path.motion()};
    bent.numbers = {{"force", {path.force(), 0, Unit::force}},
                    {"stiffness", {path.force() / travel, 0, Unit::bending_stiffness}},
                    {"tangent", {path.tangent(), 0, Unit::bending_stiffness}},
                    {"flattening", {flat.dot(path.motion()), 0, Unit::length}}};
    if (const BendWeights* weights = stop.weights) {
        set_weights(task,
                    {{"force", [&] { return weights->force(); }},
                     {"stiffness", [&] { return NumberWeights(weights->force() / travel); }},
                     {"tangent", [&] { return weights->tangent(); }},
                     {"flattening", [&] { return weights->motion(flat); }}},
                    bent);
    }
    return bent;
}

// A small turn of the bent board: twice the energy of a unit turn is torque over turn. Nothing
// where it has no stiffness left.
std::optional<BentCase> twist_case(const Task& task, const Stop& stop, const BenchCase& twist) {
    const BendPath& path = stop.path;
    const Loading turn = turn_while_bent(task.board, task.bent.model, twist, path.motion());
    VectorXd psi = turn.motion;
    try {
        const Factor factor = tangent_factor(task.tree, path.state(), turn.fixed, task.settings);
        for (int round = 0; round < 2; ++round) {
            VectorXd lack = -tangent_forces(task.bent.model, path.state().K, psi);
            clear_fixed(turn.fixed, lack);
            psi += solve(factor, lack, task.threads()).col(0);
        }
    } catch (const SolveError&) {
        return std::nullopt;
    }
    const VectorXd forces = tangent_forces(task.bent.model, path.state().K, psi);
    BentCase bent{twist.info.name, path.travel(), {}, {}};
    bent.numbers = {{"stiffness", {psi.dot(forces), 0, Unit::twist_stiffness}}};
    if (const BendWeights* weights = stop.weights) {
        const auto stiffness = [&] {
            return weights->stiffness(psi,
                                      owed_to_place(task.bent.model, turn, path.motion(), forces));
        };
        set_weights(task, {{"stiffness", stiffness}}, bent);
    }
    return bent;
}

void sort_by_table(std::vector<BentCase>& cases) {
    const auto place = [&](const BentCase& one) {
        return &bench_of(one.name) - case_table().data();
    };
    std::ranges::stable_sort(
        cases, [&](const BentCase& a, const BentCase& b) { return place(a) < place(b); });
}

std::string no_stiffness(const std::string& twist, double travel) {
    std::ostringstream text;
    text << twist << ": the board bent by " << travel * 1e3
         << " mm has no stiffness left against this turn";
    return text.str();
}

// Goes to a travel: from where a pass at another degree of the same mesh stood there, if that is
// near enough for Newton, else all the way.
BendStop go(const Task& task, BendPath& path, const BendingKind& kind, double travel,
            const BendPass* near) {
    BendStop here{kind.name, travel, 0, {}};
    if (near != nullptr) {
        for (const BendStop& stop : near->stops) {
            if (stop.bending != kind.name || stop.travel != travel) {
                continue;
            }
            if (!stop.why_not.empty()) {
                here.why_not = stop.why_not;
                return here;
            }
            const VectorXd u = at_higher_degree(*near->model, task.bent.model, stop.motion);
            path.try_from(u, stop.force, travel);
        }
    }
    here.why_not = path.go_to(travel, kind.name);
    if (here.why_not.empty()) {
        here.force = path.force();
        here.motion = path.motion();
    }
    return here;
}

// What is asked for of a kind.
struct Wanted {
    bool itself;
    std::vector<const BenchCase*> twists;
};

Wanted wanted_of(const BendingKind& kind, const std::vector<const BenchCase*>& cases) {
    Wanted wanted{named(cases, kind.name) != nullptr, {}};
    for (const char* name : kind.twists) {
        if (const BenchCase* twist = named(cases, name)) {
            wanted.twists.push_back(twist);
        }
    }
    return wanted;
}

// All travels of a kind, the smallest first: what lies beyond the first that is not reached is
// missed for the same reason.
void follow(const Task& task, BendPath& path, const BendingKind& kind, const Wanted& wanted,
            const BendPass* near, BendPass& pass, std::vector<BentCase>& twisted) {
    const OfLine line = of_line(task.bent.model, path.loading());
    std::vector<double> travels = task.settings.bend;
    std::ranges::sort(travels);
    std::string why_not;
    for (const double travel : travels) {
        pass.stops.push_back(why_not.empty() ? go(task, path, kind, travel, near)
                                             : BendStop{kind.name, travel, 0, {}, why_not});
        why_not = pass.stops.back().why_not;
        const bool there = why_not.empty();
        std::optional<BendWeights> weights;
        if (there && task.places) {
            weights.emplace(task.bent, path, task.threads());
        }
        const Stop stop{path, weights ? &*weights : nullptr};
        if (wanted.itself && there) {
            pass.cases.push_back(bending_case(task, stop, kind, line * flattening));
            pass.lines.emplace_back(line.transpose() * path.motion());
        } else if (wanted.itself) {
            pass.missed.push_back({kind.name, travel, why_not});
        }
        for (const BenchCase* twist : wanted.twists) {
            if (auto turned = there ? twist_case(task, stop, *twist) : std::nullopt) {
                twisted.push_back(*std::move(turned));
            } else {
                const std::string& name = twist->info.name;
                pass.missed.push_back({name, travel, there ? no_stiffness(name, travel) : why_not});
            }
        }
    }
}

std::shared_ptr<const SectionWeights> places_of(const Board& board, const PlateModel& model) {
    const Layup<double> layup = make_layup<double>(board);
    SectionCache sections(layup);
    return std::make_shared<const SectionWeights>(model_places(model, sections, 0));
}

} // namespace

const Eigen::Vector3d flattening{0.5, 0.5, -1};

bool bends(const std::string& bench_case) {
    return std::ranges::any_of(bending_kinds, [&](const BendingKind& kind) {
        return bench_case == kind.name || bench_case == kind.twists[0] ||
               bench_case == kind.twists[1];
    });
}

BendPass bend_pass(const Board& board, const BendModel& at,
                   const std::vector<const BenchCase*>& cases, const Settings& settings,
                   const BendPass* near, const std::vector<std::string>& weighed) {
    const LargeMotionModel model = large_motion_model(at.model, settings.thread_count());
    const Task task{board,    model,   at.tree,
                    settings, weighed, weighed.empty() ? nullptr : places_of(board, at.model)};
    BendPass pass;
    pass.model = &at.model;
    std::vector<BentCase> twisted;
    for (const BendingKind& kind : bending_kinds) {
        const Wanted wanted = wanted_of(kind, cases);
        if (settings.bend.empty() || (!wanted.itself && wanted.twists.empty())) {
            continue;
        }
        BendPath path(model, at.tree, bench_of(kind.name).loading(board, at.model), kind.sign,
                      settings);
        follow(task, path, kind, wanted, near, pass, twisted);
        warn(kind, path.state(), pass.warnings);
    }
    sort_by_table(twisted);
    pass.cases.insert(pass.cases.end(), twisted.begin(), twisted.end());
    return pass;
}

} // namespace vrid
