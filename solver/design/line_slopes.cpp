#include "solver/design/line_slopes.hpp"

#include <algorithm>
#include <functional>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "solver/design/cooled_slopes.hpp"
#include "solver/design/moved_mesh.hpp"
#include "solver/design/plain_numbers.hpp"
#include "solver/design/shape_slopes.hpp"
#include "solver/design/study_weights.hpp"
#include "solver/mesh_request.hpp"

namespace vrid {

namespace {

using Kind = NumberId::Kind;

class LineSlopes {
  public:
    LineSlopes(const DesignBoard& design, const NumbersOptions& options,
               const StudiedNumbers& studied, BoardNumbers& numbers)
        : design_(design), board_(*design.board), options_(options), studied_(studied),
          result_(numbers) {}

    void run() {
        add_plain();
        if (!studied_.numbers.empty()) {
            add_studied();
        }
        add_cooled();
        add_differences([](const NumberId& r) { return r.kind == Kind::bent; }, false);
        add_differences([](const NumberId& r) { return r.kind == Kind::edge; }, true);
    }

  private:
    [[nodiscard]] std::vector<NumberId> requests(const std::vector<std::size_t>& numbers) const {
        return each_of(numbers, [&](const std::size_t k) { return result_.numbers[k].request; });
    }

    // The shape out of the press: the study's motions held on moved meshes.
    void add_cooled() {
        const auto numbers =
            numbers_where(result_, [](const NumberId& r) { return r.kind == Kind::shape; });
        if (numbers.empty()) {
            return;
        }
        const std::vector<NumberId> wanted = requests(numbers);
        const StationsOf stations = stations_of(wanted);
        const auto slopes = [&](const Board& board, const StudyResult& study,
                                const LineValue& line) {
            const MeshMover mover(study.prepared, board, stations);
            return cooled_line_slopes({board, study, mover, options_.thread_count()}, wanted, line);
        };
        const auto beside = [&](const LineValue& line, double value) {
            const Board there = with_line_value(board_, line, value);
            return slopes(there, solved_beside(there, wanted), line);
        };
        for (const LineValue& line : options_.lines) {
            if (has_kink(board_, line, stations)) {
                const double now = line_value(board_, line.id);
                set_kink(numbers, line, beside(line, now - beside_kink),
                         beside(line, now + beside_kink));
            } else {
                set(numbers, {line}, slopes(board_, *studied_.study, line));
            }
        }
    }

    double& slope(std::size_t number, const DesignId& id) {
        const auto at = std::ranges::find(result_.values, id);
        return result_.numbers[number].slope(at - result_.values.begin());
    }

    void set(const std::vector<std::size_t>& numbers, const std::vector<LineValue>& lines,
             const MatrixXd& slopes) {
        for (std::size_t k = 0; k < numbers.size(); ++k) {
            for (std::size_t i = 0; i < lines.size(); ++i) {
                slope(numbers[k], lines[i].id) =
                    slopes(static_cast<Index>(k), static_cast<Index>(i));
            }
        }
    }

    void add_plain() {
        const auto numbers = numbers_where(result_, needs_no_mesh);
        if (!numbers.empty()) {
            set(numbers, options_.lines,
                plain_shape_slopes(board_, requests(numbers), options_.lines));
        }
    }

    void add_studied() {
        const StationsOf stations = stations_of(requests(studied_.numbers));
        std::vector<LineValue> smooth;
        for (const LineValue& line : options_.lines) {
            if (has_kink(board_, line, stations)) {
                add_kink(line);
            } else {
                smooth.push_back(line);
            }
        }
        if (!smooth.empty()) {
            set(studied_.numbers, smooth, own_slopes(*studied_.study, smooth));
        }
    }

    MatrixXd own_slopes(const StudyResult& study, const std::vector<LineValue>& lines) {
        const std::vector<BoardNumber> numbers =
            each_of(studied_.numbers, [&](const std::size_t k) { return result_.numbers[k]; });
        return study_shape_slopes(design_, study, *studied_.weights, numbers, lines,
                                  options_.thread_count());
    }

    // A board with a value changed on a mesh of its own, as fine as the study's.
    StudyResult solved_beside(const Board& there, const std::vector<NumberId>& wanted) {
        StudyOptions study{options_, cases_of(wanted), true, nullptr, concavity_stations(wanted)};
        if (studied_.study->prepared) {
            study.degree = studied_.study->prepared->degree;
            study.max_size = studied_.study->prepared->max_size;
            study.rel_error.reset();
        }
        return run_study(there, study);
    }

    // The derivatives on a mesh of its own of the board with the value changed.
    VectorXd slopes_at(const LineValue& line, double value) {
        const DesignBoard there = design_board(with_line_value(board_, line, value));
        const std::vector<NumberId> wanted = requests(studied_.numbers);
        const StudyResult solved = solved_beside(*there.board, wanted);
        std::vector<BoardNumber> numbers;
        for (const NumberId& request : wanted) {
            const CaseResult& bench = solved.cases[case_index(solved, request)];
            numbers.push_back({request, bench.numbers[number_index(bench, request)].quantity, {}});
        }
        const StudyWeights owed =
            study_weights(*there.board, solved, numbers, options_.thread_count());
        return study_shape_slopes(there, solved, owed.weights, numbers, {line},
                                  options_.thread_count())
            .col(0);
    }

    void add_kink(const LineValue& line) {
        const double now = line_value(board_, line.id);
        const VectorXd below = slopes_at(line, now - beside_kink);
        const VectorXd above = slopes_at(line, now + beside_kink);
        set_kink(studied_.numbers, line, below, above);
    }

    // Values of numbers of a board with a value changed, on a mesh moved with it.
    std::vector<double> values_on(const SharedPrepared& moved, const Board& board,
                                  const std::vector<NumberId>& wanted, bool on_edge) {
        NumbersOptions plain = options_;
        plain.slopes = plain.densities = plain.edge_bars = false;
        plain.lines.clear();
        (on_edge ? plain.edge_prepared : plain.prepared) = moved;
        return each_of(board_numbers(board, wanted, plain).numbers,
                       [](const BoardNumber& number) { return number.quantity.value; });
    }

    // Numbers of an edge or of a bent board, by differences on moved meshes.
    struct Differences {
        std::vector<std::size_t> numbers;
        std::vector<NumberId> wanted;
        StationsOf stations;
        bool on_edge = false;
    };

    VectorXd differences(const Differences& of, const SharedPrepared& prepared, const Board& board,
                         const LineValue& line) {
        const MeshMover mover(prepared, board, of.stations);
        const ShapeChange change = shape_change(board, line, beside_kink);
        const auto below =
            values_on(mover.moved(change, change.low), *change.below, of.wanted, of.on_edge);
        const auto above = values_on(mover.moved(change, change.low + change.width), *change.above,
                                     of.wanted, of.on_edge);
        VectorXd slopes(static_cast<Index>(of.wanted.size()));
        for (std::size_t k = 0; k < of.wanted.size(); ++k) {
            slopes(static_cast<Index>(k)) = (above[k] - below[k]) / change.width;
        }
        return slopes;
    }

    // On a mesh of its own of the board with the value changed: beside a kink.
    VectorXd differences_at(const Differences& of, const SharedPrepared& like,
                            const LineValue& line, double value) {
        const Board there = with_line_value(board_, line, value);
        Settings settings = options_;
        settings.degree = like->degree;
        settings.max_size = like->max_size;
        settings.rel_error.reset();
        const SharedPrepared own =
            of.on_edge ? prepare_edge(there, {settings})
                       : prepare_study(there, {settings, cases_of(of.wanted), false, nullptr, {}});
        return differences(of, own, there, line);
    }

    void add_differences(const std::function<bool(const NumberId&)>& which, bool on_edge) {
        Differences of{numbers_where(result_, which), {}, nullptr, on_edge};
        const SharedPrepared prepared = on_edge ? result_.edge_prepared : result_.prepared;
        if (of.numbers.empty() || !prepared) {
            return;
        }
        of.wanted = requests(of.numbers);
        of.stations = on_edge ? StationsOf(edge_stations) : stations_of(of.wanted);
        std::vector<LineValue> smooth;
        for (const LineValue& line : options_.lines) {
            if (!has_kink(board_, line, of.stations)) {
                smooth.push_back(line);
                continue;
            }
            const double now = line_value(board_, line.id);
            const VectorXd below = differences_at(of, prepared, line, now - 2 * beside_kink);
            const VectorXd above = differences_at(of, prepared, line, now + 2 * beside_kink);
            set_kink(of.numbers, line, below, above);
        }
        const EdgeOwed& edge = studied_.edge;
        if (on_edge && edge.adjoint) {
            set(of.numbers, smooth,
                edge_shape_slopes(design_, edge, smooth, options_.thread_count()));
            return;
        }
        for (const LineValue& line : smooth) {
            set(of.numbers, {line}, differences(of, prepared, board_, line));
        }
    }

    void set_kink(const std::vector<std::size_t>& numbers, const LineValue& line,
                  const VectorXd& below, const VectorXd& above) {
        set(numbers, {line}, (below + above) / 2);
        for (std::size_t k = 0; k < numbers.size(); ++k) {
            const auto row = static_cast<Index>(k);
            result_.kinks.push_back({numbers[k], line.id, below(row), above(row)});
        }
    }

    const DesignBoard& design_;
    const Board& board_;
    const NumbersOptions& options_;
    const StudiedNumbers& studied_;
    BoardNumbers& result_;
};

} // namespace

void add_line_slopes(const DesignBoard& design, const NumbersOptions& options,
                     const StudiedNumbers& studied, BoardNumbers& numbers) {
    LineSlopes(design, options, studied, numbers).run();
}

void add_outline_density(const DesignBoard& design, const StudiedNumbers& studied, int threads,
                         BoardNumbers& numbers) {
    const std::vector<BoardNumber> own =
        each_of(studied.numbers, [&](const std::size_t k) { return numbers.numbers[k]; });
    numbers.outline = study_outline_density(design, *studied.study, *studied.weights, own, threads);
    numbers.outline.numbers = studied.numbers;
}

} // namespace vrid
