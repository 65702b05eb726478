#include "solver/lot/lot_study.hpp"

#include <algorithm>
#include <cmath>

#include "mesh/board/lists.hpp"
#include "mesh/dense_memory.hpp"
#include "solver/lot/tails.hpp"

namespace vrid {

namespace {

constexpr double plainly_wide = 0.001;
constexpr double matters = 1.2; // a factor nearer to 1 makes neither outliers nor drift
// Variance of a normal value about the median of the 15 around it: 1 - 2/15 + that of the median,
// 0.1017 (tables of order statistics, from memory; drawn again in the tests).
constexpr double about_median = 0.968;
constexpr std::size_t fewest = 8; // boards that a step is worth doing with

std::vector<Index> boards_without(Index boards, const std::vector<LotOutlier>& outliers) {
    std::vector<Index> rest;
    auto next = outliers.begin();
    for (Index i = 0; i < boards; ++i) {
        if (next != outliers.end() && next->board == i) {
            ++next;
        } else {
            rest.push_back(i);
        }
    }
    return rest;
}

bool same_boards(const std::vector<LotOutlier>& a, const std::vector<LotOutlier>& b) {
    return std::ranges::equal(
        a, b, [](const LotOutlier& x, const LotOutlier& y) { return x.board == y.board; });
}

// The group whose factor is plainly another about the running medians, of some boards.
std::optional<GroupFactor> wide_group(const LotPart& part, const MatrixXd& medians, int threads) {
    LotCells cells = lot_cells(part.model, part.readings);
    cells.residual =
        (cells.residual - medians(part.numbers, part.boards)) / std::sqrt(about_median);
    const std::vector<GroupFactor> factors = group_factors(part.model, cells, threads);
    const auto least = std::ranges::min_element(factors, [](const auto& a, const auto& b) {
        return a.holm != b.holm ? a.holm < b.holm : a.p < b.p;
    });
    const bool wide = least != factors.end() && least->holm < plainly_wide &&
                      (least->factor > matters || least->factor < 1 / matters);
    return wide ? std::optional(*least) : std::nullopt;
}

MatrixXd covariance_of(const LotModel& model, const std::optional<GroupFactor>& wide) {
    return wide ? with_factor(model, wide->group, wide->factor) : board_covariance(model);
}

// Boards of a part, as boards of the whole.
void to_whole(LotChange& change, const std::vector<Index>& boards) {
    for (FirstBoard* shape : {&change.step, &change.ramp}) {
        for (Index* board : {&shape->first, &shape->from, &shape->to}) {
            *board = boards[static_cast<std::size_t>(*board)];
        }
    }
}

// What follows a change is about the boards before the earlier of the two first boards; if these
// are too few, about those from the later on.
void choose_boards(LotFindings& findings, const std::vector<Index>& kept) {
    findings.used = kept;
    if (!findings.changed) {
        return;
    }
    const auto [early, late] = std::minmax(findings.change.step.first, findings.change.ramp.first);
    std::vector<Index> before;
    std::vector<Index> after;
    for (const Index i : kept) {
        if (i < early) {
            before.push_back(i);
        } else if (i >= late) {
            after.push_back(i);
        }
    }
    if (before.size() >= fewest) {
        findings.used = before;
        findings.about = LotBoards::before_change;
    } else if (after.size() >= fewest) {
        findings.used = after;
        findings.about = LotBoards::after_change;
    }
}

CapabilityInput capability_input(const LotModel& model, const NumberSpread& found, Index k) {
    return {model.mean(k) + found.mean, found.sd, found.cells, model.rig_sd(k), model.bias_sd(k)};
}

// By number of the whole, nothing for one that the part's boards hardly have.
std::vector<std::optional<Capability>> capabilities(const LotPart& part,
                                                    const LotOptions& options) {
    std::vector<std::optional<Capability>> all(options.limits.size());
    const LotCells cells = lot_cells(part.model, part.readings);
    const std::vector<NumberSpread> spreads = number_spreads(part.model, cells);
    for (std::size_t s = 0; s < spreads.size(); ++s) {
        const auto k = static_cast<std::size_t>(part.numbers[s]);
        if (options.limits[k] && spreads[s].sd > 0) {
            all[k] = capability(capability_input(part.model, spreads[s], static_cast<Index>(s)),
                                *options.limits[k], options.change.seed);
        }
    }
    return all;
}

void add_numbers(LotFindings& findings, const LotModel& model, const LotPart& part,
                 const LotCells& cells, const LotOptions& options) {
    const VectorXd variance = board_covariance(model).diagonal() + model.rig_sd.cwiseAbs2();
    for (Index k = 0; k < model.mean.size(); ++k) {
        LotNumber number;
        number.predicted = model.mean(k);
        number.predicted_sd = std::sqrt(variance(k));
        findings.numbers.push_back(number);
    }
    const std::vector<NumberSpread> spreads = number_spreads(part.model, cells);
    for (std::size_t s = 0; s < spreads.size(); ++s) {
        LotNumber& number = findings.numbers[static_cast<std::size_t>(part.numbers[s])];
        number.found = spreads[s];
        number.found.mean += number.predicted;
        number.mean_sd = spreads[s].sd / std::sqrt(spreads[s].cells);
    }
    const auto built = capabilities(part, options);
    for (std::size_t k = 0; k < built.size(); ++k) {
        findings.numbers[k].built = built[k];
    }
}

// The last fifth of a lot that changed, apart.
void add_late(LotFindings& findings, const LotModel& model, const LotReadings& readings,
              const std::vector<Index>& kept, const LotOptions& options) {
    if (!findings.changed) {
        return;
    }
    const std::size_t fifth = std::max<std::size_t>(2, kept.size() / 5);
    const std::vector<Index> last(kept.end() - static_cast<std::ptrdiff_t>(fifth), kept.end());
    const auto late = capabilities(lot_part(model, readings, last), options);
    for (std::size_t k = 0; k < late.size(); ++k) {
        findings.numbers[k].late = late[k];
    }
}

LotModel numbers_of(const LotModel& model, const LotPart& part) {
    LotModel some = part.model;
    some.mean = model.mean(part.numbers);
    some.slopes = model.slopes(part.numbers, Eigen::all);
    return some;
}

// Once more about the best explanation, for the numbers are not quite linear.
void add_moved(LotFindings& findings, const LotPart& part, const LotCentre& centre,
               const ModelAt& at) {
    findings.moved = lot_moved(part.model, centre);
    if (!at || findings.moved.explanations.empty()) {
        return;
    }
    const LotModel there = numbers_of(at(findings.moved.explanations.front().shifts), part);
    LotCentre about = centre;
    about.mean += part.model.mean - there.mean;
    LotMoved again = lot_moved(there, about);
    again.statistic = findings.moved.statistic; // of nothing moved, which the first model says
    again.p = findings.moved.p;
    findings.moved = again;
}

void add_change(LotFindings& findings, const LotPart& kept, const LotOptions& options) {
    const LotCells cells = lot_cells(kept.model, kept.readings);
    const MatrixXd V = covariance_of(kept.model, findings.wide);
    findings.change = lot_change(kept.model, cells, V, options.change);
    findings.changed = findings.change.p < lot_level;
    to_whole(findings.change, kept.boards);
    std::vector<double> p;
    for (const std::vector<int>& column : options.columns) {
        const std::vector<int> groups = each_of(
            kept.boards, [&](const Index i) { return column[static_cast<std::size_t>(i)]; });
        findings.columns.push_back(column_test(cells, V, groups));
        p.push_back(findings.columns.back().p);
    }
    findings.columns_holm = holm(p);
}

} // namespace

LotFirstLook first_look(const LotModel& model, const LotReadings& readings, int threads) {
    constexpr int most_rounds = 4;
    prepare_dense(1);
    const LotCells cells = lot_cells(model, readings);
    const MatrixXd medians = running_medians(model, cells);
    const Index boards = readings.value.cols();
    LotFirstLook look;
    look.outliers = lot_outliers(model, cells, medians, board_covariance(model));
    for (int round = 0; round < most_rounds; ++round) {
        // of the boards that belong: one that does not must not make the others look wide
        std::vector<Index> rest = boards_without(boards, look.outliers);
        if (rest.size() < fewest) {
            rest = boards_without(boards, {});
        }
        look.wide = wide_group(lot_part(model, readings, rest), medians, threads);
        const std::vector<LotOutlier> outliers =
            lot_outliers(model, cells, medians, covariance_of(model, look.wide));
        const bool settled = same_boards(outliers, look.outliers);
        look.outliers = outliers;
        if (settled) {
            break;
        }
    }
    return look;
}

LotFindings study_lot(const LotModel& model, const LotReadings& readings, const LotOptions& options,
                      const ModelAt& at) {
    LotFindings findings;
    const LotFirstLook look = first_look(model, readings, options.change.threads);
    findings.wide = look.wide;
    findings.outliers = look.outliers;
    std::vector<Index> kept = boards_without(readings.value.cols(), look.outliers);
    if (kept.size() < fewest) { // nothing belongs to anything
        kept = boards_without(readings.value.cols(), {});
    }
    add_change(findings, lot_part(model, readings, kept), options);
    choose_boards(findings, kept);
    const LotPart part = lot_part(model, readings, findings.used);
    const LotCells cells = lot_cells(part.model, part.readings);
    findings.spread = lot_spread(part.model, cells);
    add_numbers(findings, model, part, cells, options);
    add_late(findings, model, readings, kept, options);
    const MatrixXd V = covariance_of(part.model, findings.wide);
    add_moved(findings, part, lot_centre(cells, lot_weights(cells, V)), at);
    findings.factors = group_factors(part.model, cells, options.change.threads);
    std::ranges::stable_sort(findings.factors, {}, &GroupFactor::p);
    if (!options.joint.empty()) {
        findings.joint = joint_factors(part.model, cells, options.joint);
    }
    return findings;
}

} // namespace vrid
