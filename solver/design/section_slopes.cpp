#include "solver/design/section_slopes.hpp"

#include <algorithm>

#include "mesh/board/board_stations.hpp"
#include "mesh/board/lists.hpp"
#include "solver/design/thickness_grid.hpp"
#include "solver/response/station.hpp"
#include "solver/system/parallel.hpp"

namespace vrid {

namespace {

using Columns = SectionColumns;

// What sets must share to be gathered together.
struct PointKind {
    Pace pace = Pace::quick;
    double celsius = 0;
    bool operator==(const PointKind&) const = default;
};

VectorXd thickness_at(const Layup<double>& layup, const SectionWeights& set,
                      const std::vector<Index>& places) {
    VectorXd thickness(static_cast<Index>(places.size()));
    for (Index i = 0; i < thickness.size(); ++i) {
        thickness(i) = core_thickness(
            layup,
            set.places[static_cast<std::size_t>(places[static_cast<std::size_t>(i)])].point());
    }
    return thickness;
}

// The columns of a set's weights for some places: section_terms x (places) of one number.
Columns weights_of(const SectionWeights& set, const std::vector<Index>& places, Index number) {
    Columns columns(section_terms, static_cast<Index>(places.size()));
    for (Index i = 0; i < columns.cols(); ++i) {
        columns.col(i) = set.weight.col(number).segment<section_terms>(
            section_terms * places[static_cast<std::size_t>(i)]);
    }
    return columns;
}

// Derivatives by the core thickness at the grid's points.
Columns core_slopes(const Layup<Dual>& plain, double celsius, const StackKey& key,
                    const VectorXd& points) {
    Columns columns(section_terms, points.size());
    for (Index j = 0; j < points.size(); ++j) {
        const auto dual = section_column(
            section(stack_laminae(plain, key, Dual(points(j), dual_width, 0))), celsius);
        for (Index row = 0; row < section_terms; ++row) {
            columns(row, j) = dual(row).derivatives()(0);
        }
    }
    return columns;
}

// Gathers a stack's weights at the grid and returns what each place owes to its core thickness.
void gather(const StackFrame& frame, const std::vector<const SectionWeights*>& sets,
            StackShare& share, std::vector<MatrixXd>& by_thickness) {
    const Index points = share.grid.points.size();
    share.gathered = MatrixXd::Zero(section_terms, points * frame.numbers);
    Index first = 0;
    for (std::size_t s = 0; s < sets.size(); ++s) {
        const std::vector<Index>& places = share.places[s];
        const MatrixXd to_values =
            share.grid.to_values(thickness_at(frame.layup, *sets[s], places));
        const Columns slope = share.by_core * to_values.transpose();
        for (Index r = 0; r < sets[s]->weight.cols(); ++r) {
            const Columns weights = weights_of(*sets[s], places, r);
            share.gathered.middleCols((first + r) * points, points) += weights * to_values;
            const VectorXd owed = weights.cwiseProduct(slope).colwise().sum();
            for (Index i = 0; i < owed.size(); ++i) {
                by_thickness[s](places[static_cast<std::size_t>(i)], r) = owed(i);
            }
        }
        first += sets[s]->weight.cols();
    }
}

// Some design values at once: those of one dual number.
struct Chunk {
    Index first = 0, count = 0;
    BoardReading<Dual> read;
    bool core = false; // one of them moves the core's thickness
};

Chunk chunk_of(const DesignBoard& design, Index first) {
    Chunk chunk;
    chunk.first = first;
    chunk.count = std::min<Index>(dual_width, static_cast<Index>(design.values.size()) - first);
    const auto& core = design.board->core;
    for (Index i = 0; i < chunk.count; ++i) {
        for (const Follower& f : design.values[static_cast<std::size_t>(first + i)].followers) {
            const auto [seed, fresh] = chunk.read.seeds.try_emplace(f.place, DualSlopes::Zero());
            seed->second(i) += f.slope;
            chunk.core = chunk.core ||
                         (core && f.place >= core->thickness.value.data() &&
                          f.place < core->thickness.value.data() + core->thickness.value.size());
        }
    }
    return chunk;
}

bool constant(const std::vector<Lamina<Dual>>& stack) {
    return std::ranges::all_of(stack, [](const Lamina<Dual>& ply) {
        const auto still = [](const Dual& value) { return value.derivatives().isZero(0); };
        const auto all_still = [&](const Vector3<Dual>& values) {
            return values.unaryExpr([&](const Dual& v) { return still(v); }).all();
        };
        return ply.Qbar.unaryExpr([&](const Dual& v) { return still(v); }).all() &&
               all_still(ply.expansion) && all_still(ply.offset) &&
               ply.compliance.unaryExpr([&](const Dual& v) { return still(v); }).all() &&
               still(ply.density) && still(ply.thickness);
    });
}

void add_chunk(const StackFrame& frame, const Board& board, const PointKind& kind,
               const Chunk& chunk, MatrixXd& slopes) {
    const Layup<Dual> layup = make_layup<Dual>(board, chunk.read, kind.pace);
    Eigen::Matrix<double, section_terms, dual_width> change;
    for (const StackShare& share : frame.shares) {
        const Index points = share.grid.points.size();
        if (constant(stack_laminae(layup, share.key, Dual(share.grid.points(0))))) {
            continue;
        }
        for (Index j = 0; j < points; ++j) {
            const auto dual = section_column(
                section(stack_laminae(layup, share.key, Dual(share.grid.points(j)))), kind.celsius);
            for (Index row = 0; row < section_terms; ++row) {
                change.row(row) = dual(row).derivatives().transpose();
            }
            for (Index r = 0; r < frame.numbers; ++r) {
                slopes.row(r).segment(chunk.first, chunk.count) +=
                    (share.gathered.col(r * points + j).transpose() * change).head(chunk.count);
            }
        }
    }
}

// The way through the core's thickness.
void add_core(const Board& board, const Chunk& chunk,
              const std::vector<const SectionWeights*>& sets,
              const std::vector<MatrixXd>& by_thickness, MatrixXd& slopes) {
    const Layup<Dual> layup = make_layup<Dual>(board, chunk.read);
    Index first = 0;
    for (std::size_t s = 0; s < sets.size(); ++s) {
        const auto count = static_cast<Index>(sets[s]->places.size());
        MatrixXd moved(count, chunk.count); // dt/dp
        for (Index i = 0; i < count; ++i) {
            moved.row(i) = core_thickness(layup, sets[s]->places[static_cast<std::size_t>(i)].x)
                               .derivatives()
                               .head(chunk.count)
                               .transpose();
        }
        slopes.block(first, chunk.first, by_thickness[s].cols(), chunk.count) +=
            by_thickness[s].transpose() * moved;
        first += by_thickness[s].cols();
    }
}

// Resin that is mass only adds to I0 everywhere.
void add_resin(const DesignBoard& design, const std::vector<const SectionWeights*>& sets,
               MatrixXd& slopes) {
    const auto resin = std::ranges::find_if(design.values, [](const DesignValue& value) {
        return value.kind().property == DesignProperty::resin;
    });
    Index first = 0;
    for (const SectionWeights* set : sets) {
        const auto count = static_cast<Index>(set->places.size());
        for (Index r = 0; r < set->weight.cols(); ++r) {
            const Eigen::Map<const Columns> weights(set->weight.col(r).data(), section_terms,
                                                    count);
            slopes(first + r, resin - design.values.begin()) +=
                weights.row(first_inertia_term).sum();
        }
        first += set->weight.cols();
    }
}

PointKind kind_of(const SectionWeights& set) {
    return {set.pace, set.celsius};
}

// Fills the shares' gathered weights; returns places x numbers for every set.
std::vector<MatrixXd> gather_all(const Board& board, StackFrame& frame,
                                 const std::vector<const SectionWeights*>& sets, int threads) {
    std::vector<MatrixXd> by_thickness;
    by_thickness.reserve(sets.size());
    for (const SectionWeights* set : sets) {
        by_thickness.emplace_back(
            MatrixXd::Zero(static_cast<Index>(set->places.size()), set->weight.cols()));
    }
    const PointKind kind = kind_of(*sets.front());
    const Layup<Dual> plain = make_layup<Dual>(board, {}, kind.pace);
    for_each_in_parallel(static_cast<int>(frame.shares.size()), threads, [&](int i) {
        StackShare& share = frame.shares[static_cast<std::size_t>(i)];
        share.by_core = core_slopes(plain, kind.celsius, share.key, share.grid.points);
        gather(frame, sets, share, by_thickness);
    });
    return by_thickness;
}

// Of sets of one kind.
MatrixXd slopes_of(const DesignBoard& design, const std::vector<const SectionWeights*>& sets,
                   int threads) {
    const Board& board = *design.board;
    const PointKind kind = kind_of(*sets.front());
    StackFrame frame = stack_frame(board, sets);
    const std::vector<MatrixXd> by_thickness = gather_all(board, frame, sets, threads);
    MatrixXd slopes = MatrixXd::Zero(frame.numbers, static_cast<Index>(design.values.size()));
    const int chunks = (static_cast<int>(slopes.cols()) + dual_width - 1) / dual_width;
    for_each_in_parallel(chunks, threads, [&](int i) {
        const Chunk chunk = chunk_of(design, Index(i) * dual_width);
        if (chunk.read.seeds.empty()) {
            return; // values that move lines: shape_slopes
        }
        add_chunk(frame, board, kind, chunk, slopes); // every chunk has columns of its own
        if (chunk.core) {
            add_core(board, chunk, sets, by_thickness, slopes);
        }
    });
    add_resin(design, sets, slopes);
    return slopes;
}

} // namespace

MatrixXd design_slopes(const DesignBoard& design, const std::vector<const SectionWeights*>& sets,
                       int threads) {
    std::vector<Index> first{0}; // row of each set
    std::vector<PointKind> kinds;
    for (const SectionWeights* set : sets) {
        first.push_back(first.back() + set->weight.cols());
        add_once(kinds, kind_of(*set));
    }
    MatrixXd slopes(first.back(), static_cast<Index>(design.values.size()));
    for (const PointKind& kind : kinds) {
        std::vector<const SectionWeights*> same;
        std::ranges::copy_if(sets, std::back_inserter(same),
                             [&](const SectionWeights* set) { return kind_of(*set) == kind; });
        const MatrixXd found = slopes_of(design, same, threads);
        Index row = 0;
        for (std::size_t s = 0; s < sets.size(); ++s) {
            if (kind_of(*sets[s]) == kind) {
                const Index count = sets[s]->weight.cols();
                slopes.middleRows(first[s], count) = found.middleRows(row, count);
                row += count;
            }
        }
    }
    return slopes;
}

VectorXd thickness_slopes(const DesignBoard& design, double x) {
    const Layup<double> plain = make_layup<double>(*design.board);
    const std::vector<StationPart> parts =
        station_parts(plain, beside(design.board->planform, x)); // as cross_section does
    const StackKey& key = parts.at(part_on_axis(parts)).key;
    VectorXd slopes(static_cast<Index>(design.values.size()));
    for (Index first = 0; first < slopes.size(); first += dual_width) {
        const Chunk chunk = chunk_of(design, first);
        const Layup<Dual> layup = make_layup<Dual>(*design.board, chunk.read);
        Dual thickness(0);
        for (const Lamina<Dual>& ply : stack_laminae(layup, key, core_thickness(layup, x))) {
            thickness += ply.thickness;
        }
        slopes.segment(first, chunk.count) = thickness.derivatives().head(chunk.count);
    }
    return slopes;
}

MatrixXd core_densities(const DesignBoard& design, const SectionWeights& weights) {
    StackFrame frame = stack_frame(*design.board, {&weights});
    MatrixXd density = gather_all(*design.board, frame, {&weights}, 1).front();
    for (Index i = 0; i < density.rows(); ++i) {
        density.row(i) /= weights.places[static_cast<std::size_t>(i)].area;
    }
    return density;
}

} // namespace vrid
