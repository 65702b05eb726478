#include "io/design/lot_board.hpp"

#include <algorithm>
#include <cmath>

#include "io/materials/design_paths.hpp"
#include "io/materials/tolerances.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/design_path.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

constexpr double candidate_noise = 0.007; // of a reading whose rig nobody described
constexpr double farthest = 5;            // deviations; beyond, a shift is no board's
// Of a reading's spread: a value that moves none by more in one deviation moves it by rounding.
constexpr double least_seen = 1e-6;

std::vector<NumberId> numbers_of(const Lot& lot) {
    std::vector<NumberId> numbers;
    for (const LotColumn& column : lot.columns) {
        if (column.number) {
            numbers.push_back(*column.number);
        }
    }
    return numbers;
}

BoardNumbers numbers_by(Session& session, const std::vector<NumberId>& numbers,
                        const std::vector<DesignId>& values) {
    return session.numbers(numbers, {true, false, {}, lines_among(values)});
}

// Rows of the lot's columns by some values.
void predict(const BoardNumbers& numbers, const Lot& lot, const std::vector<DesignId>& values,
             VectorXd& mean, MatrixXd& slopes) {
    const auto columns = static_cast<Index>(lot.columns.size());
    const MatrixXd by_values = slopes_by(numbers, values);
    mean.resize(columns);
    slopes.setZero(columns, static_cast<Index>(values.size()));
    Index next = 0;
    for (Index k = 0; k < columns; ++k) {
        const LotColumn& column = lot.columns[static_cast<std::size_t>(k)];
        if (column.number) {
            mean(k) = numbers.numbers[static_cast<std::size_t>(next)].quantity.value;
            slopes.row(k) = by_values.row(next);
            ++next;
            continue;
        }
        mean(k) = column.nominal;
        const auto own = std::ranges::find(values, *column.value);
        if (own != values.end()) {
            slopes(k, own - values.begin()) = 1;
        }
    }
}

// Readings several times what the board gives are in another unit; no board explains them.
void check_units(const Lot& lot, const VectorXd& mean) {
    constexpr double most = 4; // rad/s are 6.3 times Hz
    std::vector<Problem> problems;
    for (Index row = 0; row < mean.size(); ++row) {
        const LotColumn& column = lot.columns[static_cast<std::size_t>(row)];
        const bool size = column.number && !is_position(*column.number);
        std::vector<double> read;
        for (Index i = 0; size && i < lot.readings.value.cols(); ++i) {
            if (lot.readings.count(row, i) > 0) {
                read.push_back(lot.readings.value(row, i));
            }
        }
        std::ranges::sort(read);
        const double middle = read.empty() ? mean(row) : read[read.size() / 2];
        if (middle > most * mean(row) || middle < mean(row) / most) {
            const auto shown = [&](double si) {
                return shortest(round_significant(column.from_si(si), 4)) + " " + column.unit();
            };
            problems.push_back({column.place, column.name + " reads " + shown(middle) +
                                                  " in the median, the board gives " +
                                                  shown(mean(row)) + "; accepted: readings in " +
                                                  column.unit()});
        }
    }
    throw_if_any(problems);
}

// Values measured themselves have a deviation, or their readings say nothing of a board.
void check_measured(const Lot& lot, const std::vector<Tolerance>& tolerances) {
    std::vector<Problem> problems;
    for (const LotColumn& column : lot.columns) {
        const bool known = !column.value || contains(tolerances, *column.value, &Tolerance::value);
        if (!known) {
            problems.push_back(
                {column.place,
                 column.name +
                     " has no standard deviation; accepted: one in [tolerance] of the board"});
        }
    }
    throw_if_any(problems);
}

void add_group(LotBoard& board, const std::string& entry) {
    auto at = std::ranges::find(board.groups, entry);
    if (at == board.groups.end()) {
        at = board.groups.insert(at, entry);
    }
    board.model.group.push_back(static_cast<std::size_t>(at - board.groups.begin()));
}

// Which values may have moved: all, or those of [[free]].
void add_free(LotBoard& board, const Rig& rig) {
    for (std::size_t j = 0; rig.free.empty() && j < board.values.size(); ++j) {
        board.model.free.push_back(static_cast<Index>(j));
    }
    std::vector<Problem> problems;
    for (const RigFree& free : rig.free) {
        bool seen = false;
        for (std::size_t j = 0; j < board.values.size(); ++j) {
            const bool named = contains(free.paths, path_of(board.values[j]));
            const auto index = static_cast<Index>(j);
            seen = seen || named;
            if (named && !contains(board.model.free, index)) {
                board.model.free.push_back(index);
            }
        }
        if (!seen) {
            problems.push_back({free.place, "free.value: no reading of the lot depends on " +
                                                free.paths.front() +
                                                ", or it has no standard deviation in [tolerance]; "
                                                "accepted: values that a column depends on"});
        }
    }
    std::ranges::sort(board.model.free);
    throw_if_any(problems);
}

// What each reading scatters by, boards and rig.
VectorXd spread_of(const MatrixXd& slopes, const std::vector<Tolerance>& tolerances,
                   const LotRig& rig) {
    VectorXd variance(slopes.rows());
    for (Index k = 0; k < variance.size(); ++k) {
        const double noise = rig.sd[static_cast<std::size_t>(k)];
        variance(k) = noise * noise;
    }
    for (std::size_t j = 0; j < tolerances.size(); ++j) {
        variance += (slopes.col(static_cast<Index>(j)) * tolerances[j].sd).cwiseAbs2();
    }
    return variance.cwiseSqrt();
}

std::vector<NumberId> more_numbers(const Board& board) {
    std::vector<NumberId> all;
    for (const NumberId& number : plain_requests(board)) {
        if (!is_position(number)) {
            all.push_back(number);
        }
    }
    std::vector<double> stations{0};
    if (board.stance) {
        stations = {board.stance->rear(), 0, board.stance->front()};
    }
    for (const double x : stations) {
        all.push_back({NumberId::Kind::EI, {}, 0, x});
    }
    if (board.core) {
        for (const double x : board.core->thickness.x) {
            if (width_at(board.planform, x) > 0) {
                all.push_back({NumberId::Kind::thickness, {}, 0, x});
            }
        }
    }
    return all;
}

} // namespace

LotRig rig_of(const Lot& lot, const Rig& rig) {
    constexpr int fewest_repeats = 5;
    LotRig all;
    std::vector<Problem> problems;
    for (const LotColumn& column : lot.columns) {
        const RigReading* told = rig_reading(rig, column.name);
        double sd = told != nullptr ? told->sd.value_or(0) : 0;
        const bool repeats = sd == 0;
        if (repeats && column.repeat_degrees >= fewest_repeats) {
            sd = std::sqrt(column.repeat_squares / column.repeat_degrees);
        }
        if (!(sd > 0)) {
            const std::string found =
                column.repeat_degrees >= fewest_repeats
                    ? "repeats that are all the same"
                    : std::to_string(column.repeat_degrees) + " repeats of it";
            problems.push_back({column.place, "nothing says how well the rig reads " + column.name +
                                                  ": found no sd in --rig and " + found +
                                                  "; accepted: [[reading]] with number and sd in "
                                                  "--rig RIG.toml, or 5 repeats or more (boards "
                                                  "read again, the same serial on another row)"});
        }
        all.sd.push_back(sd);
        all.bias_sd.push_back(told != nullptr ? told->bias_sd : 0);
        all.of_repeats.push_back(repeats);
    }
    throw_if_any(problems);
    return all;
}

LotBoard lot_board(Session& session, const Lot& lot, const Rig& rig, const LotRig& deviations,
                   const MaterialLibrary& library) {
    const Board& designed = session.board();
    const std::vector<Tolerance> tolerances = tolerances_of(designed, library);
    check_measured(lot, tolerances);
    const std::vector<DesignId> known = each_of(tolerances, &Tolerance::value);
    const BoardNumbers numbers = numbers_by(session, numbers_of(lot), known);
    VectorXd mean;
    MatrixXd slopes;
    predict(numbers, lot, known, mean, slopes);
    check_units(lot, mean);
    const VectorXd spread = spread_of(slopes, tolerances, deviations);
    LotBoard board;
    board.warnings = numbers.warnings;
    board.model.mean = mean;
    std::vector<Index> moving;
    std::vector<double> sd;
    for (std::size_t j = 0; j < known.size(); ++j) {
        const auto index = static_cast<Index>(j);
        const VectorXd by_one = slopes.col(index) * tolerances[j].sd;
        if (!(by_one.cwiseQuotient(spread).cwiseAbs().maxCoeff() > least_seen)) {
            continue;
        }
        moving.push_back(index);
        sd.push_back(tolerances[j].sd);
        const std::string path = path_of(known[j]);
        board.values.push_back(known[j]);
        board.nominal.push_back(find_design(designed, path)->value);
        add_group(board, tolerance_entry(designed, library, path));
    }
    const auto map = [](const std::vector<double>& list) {
        return VectorXd(Eigen::Map<const VectorXd>(list.data(), static_cast<Index>(list.size())));
    };
    board.model.least.resize(static_cast<Index>(board.values.size()));
    board.model.most = board.model.least;
    for (std::size_t j = 0; j < board.values.size(); ++j) {
        const Accepted& range = accepted(range_of(*board.values[j].kind));
        const auto at = static_cast<Index>(j);
        board.model.least(at) = to_si(board.values[j], range.min) - board.nominal[j];
        board.model.most(at) = to_si(board.values[j], range.max) - board.nominal[j];
    }
    board.model.slopes = slopes(Eigen::all, moving);
    board.model.value_sd = map(sd);
    board.model.rig_sd = map(deviations.sd);
    board.model.bias_sd = map(deviations.bias_sd);
    board.model.groups = board.groups.size();
    if (board.values.empty()) {
        throw InputError(lot.file, "no value with a standard deviation moves any of these "
                                   "readings; accepted: a [tolerance] in the board file");
    }
    add_free(board, rig);
    return board;
}

LotModel model_at(Session& session, const Lot& lot, const LotBoard& board,
                  const std::vector<ValueShift>& shifts) {
    SetValues set{{}, VectorXd(static_cast<Index>(shifts.size()))};
    VectorXd delta = VectorXd::Zero(board.model.value_sd.size());
    for (std::size_t i = 0; i < shifts.size(); ++i) {
        const auto at = static_cast<std::size_t>(shifts[i].value);
        const double there = board.nominal[at] + shifts[i].shift;
        const bool possible = board.values[at].kind->may_be_zero || there > 0;
        if (!possible ||
            std::abs(shifts[i].shift) > farthest * board.model.value_sd(shifts[i].value)) {
            return board.model;
        }
        set.ids.push_back(board.values[at]);
        set.values(static_cast<Index>(i)) = there;
        delta(shifts[i].value) = shifts[i].shift;
    }
    LotModel model = board.model;
    try {
        session.set(set);
        predict(numbers_by(session, numbers_of(lot), board.values), lot, board.values, model.mean,
                model.slopes);
    } catch (const InputError&) { // of lines that no outline can have
        session.set({});
        return board.model;
    }
    session.set({});
    model.mean -= model.slopes * delta;
    for (std::size_t k = 0; k < lot.columns.size(); ++k) {
        if (lot.columns[k].value) { // itself, wherever it is
            model.mean(static_cast<Index>(k)) = lot.columns[k].nominal;
        }
    }
    return model;
}

NextCandidates next_candidates(Session& session, const Lot& lot, const Rig& rig,
                               const LotBoard& board, const std::vector<Index>& interest) {
    const auto measured = [&](const std::string& name) {
        return contains(lot.columns, name, &LotColumn::name);
    };
    std::vector<NumberId> numbers;
    for (const NumberId& number : more_numbers(session.board())) {
        if (!measured(number_name(number))) {
            numbers.push_back(number);
        }
    }
    const BoardNumbers found = numbers_by(session, numbers, board.values);
    const MatrixXd slopes = slopes_by(found, board.values);
    NextCandidates next;
    std::vector<double> noise;
    std::vector<VectorXd> rows;
    const auto add = [&](const std::string& name, double value, const VectorXd& row) {
        const RigReading* told = rig_reading(rig, name);
        next.names.push_back(name);
        noise.push_back(told != nullptr && told->sd ? *told->sd
                                                    : candidate_noise * std::abs(value));
        rows.push_back(row);
    };
    for (std::size_t k = 0; k < numbers.size(); ++k) {
        add(number_name(numbers[k]), found.numbers[k].quantity.value,
            slopes.row(static_cast<Index>(k)).transpose());
    }
    for (const Index value : interest) {
        const auto j = static_cast<std::size_t>(value);
        const auto count = static_cast<Index>(board.values.size());
        if (const std::string path = path_of(board.values[j]); !measured(path)) {
            // 0.7 % of an angle of nothing is no noise: then a tenth of what it scatters by
            const double value =
                board.nominal[j] != 0
                    ? board.nominal[j]
                    : 0.1 * board.model.value_sd(static_cast<Index>(j)) / candidate_noise;
            add(path, value, VectorXd::Unit(count, static_cast<Index>(j)));
        }
    }
    next.slopes.resize(static_cast<Index>(rows.size()), slopes.cols());
    next.rig_sd.resize(next.slopes.rows());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        next.slopes.row(static_cast<Index>(i)) = rows[i].transpose();
        next.rig_sd(static_cast<Index>(i)) = noise[i];
    }
    return next;
}

} // namespace vrid
