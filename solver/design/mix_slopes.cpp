#include "solver/design/mix_slopes.hpp"

#include <algorithm>

#include "solver/design/thickness_grid.hpp"
#include "solver/laminate/layup.hpp"
#include "solver/laminate/mix_at_outline.hpp"
#include "solver/laminate/strip_mix.hpp"

namespace vrid {

namespace {

constexpr double share_step = 1e-4;

bool mixes(const Board& board) {
    if (!board.core || board.core->resolve) {
        return false;
    }
    return board.core->strips.size() > 1 || board.core->strips_right.size() > 1;
}

SectionColumns sections_of(const Layup<double>& layup, const SectionWeights& weights,
                           const StackShare& share) {
    SectionColumns all(section_terms, share.grid.points.size());
    for (Index j = 0; j < all.cols(); ++j) {
        all.col(j) = section_column(section(stack_laminae(layup, share.key, share.grid.points(j))),
                                    weights.celsius);
    }
    return all;
}

// The section by the share of one of a variant's materials, at the grid.
SectionColumns by_share(Layup<double>& layup, const SectionWeights& weights,
                        const StackShare& share, std::size_t material) {
    const std::size_t variant = share.key.back();
    const Lamina<double> as_is = layup.core_variants[variant];
    std::vector<CoreShare> shares = layup.core_shares[variant];
    const auto at = [&](double step) {
        shares[material].share += step;
        layup.core_variants[variant] = core_lamina(*layup.board, shares, weights.pace);
        return sections_of(layup, weights, share);
    };
    const SectionColumns more = at(share_step);
    const SectionColumns less = at(-2 * share_step);
    layup.core_variants[variant] = as_is;
    return (more - less) / (2 * share_step);
}

// Weights of a stack's places times its section's slope: per number.
VectorXd work(const StackFrame& frame, const SectionWeights& weights, const StackShare& share,
              const SectionColumns& slope) {
    VectorXd all = VectorXd::Zero(weights.weight.cols());
    for (const Index place : share.places.front()) {
        const double core =
            core_thickness(frame.layup, weights.places[static_cast<std::size_t>(place)].point());
        const VectorXd at = slope * share.grid.to_values(VectorXd::Constant(1, core)).transpose();
        all += weights.weight.middleRows(section_terms * place, section_terms).transpose() * at;
    }
    return all;
}

// Of every strip that is of a variant's material in its stretch.
void add_stack(StackFrame& frame, const SectionWeights& weights, const StackShare& share,
               const CoreHalf& half, const std::vector<Strip>& strips,
               std::vector<MatrixXd>& owed) {
    const auto found = std::ranges::find(half.smeared, static_cast<int>(share.key.back()));
    if (found == half.smeared.end()) {
        return;
    }
    const auto stretch = static_cast<std::size_t>(found - half.smeared.begin());
    const double x = weights.places[static_cast<std::size_t>(share.places.front().front())].x;
    const std::vector<CoreShare> made_of = frame.layup.core_shares[share.key.back()];
    for (std::size_t m = 0; m < made_of.size(); ++m) {
        const VectorXd all = work(frame, weights, share, by_share(frame.layup, weights, share, m));
        for (std::size_t i = 0; i < strips.size(); ++i) {
            if (strip_material(strips, i, x) == made_of[m].material) {
                owed[stretch].row(static_cast<Index>(i)) += all.transpose();
            }
        }
    }
}

// A mix's change times what is owed to it.
VectorXd part(const StripMix& below, const StripMix& above, const std::vector<MatrixXd>& owed) {
    VectorXd all = VectorXd::Zero(owed.front().cols());
    for (std::size_t stretch = 0; stretch < owed.size(); ++stretch) {
        for (std::size_t i = 0; i < above.share[stretch].size(); ++i) {
            all += (above.share[stretch][i] - below.share[stretch][i]) *
                   owed[stretch].row(static_cast<Index>(i)).transpose();
        }
    }
    return all;
}

} // namespace

MixSlopes::MixSlopes(const Board& board, const SectionWeights& weights)
    : numbers_(weights.weight.cols()) {
    if (!mixes(board)) {
        return;
    }
    StackFrame frame = stack_frame(board, {&weights});
    const auto nothing = [&](const CoreHalf& half, const std::vector<Strip>& strips) {
        return Owed(half.smeared.size(),
                    MatrixXd::Zero(static_cast<Index>(strips.size()), numbers_));
    };
    left_ = nothing(frame.layup.left, board.core->strips);
    if (frame.layup.right.smeared != frame.layup.left.smeared) {
        right_ = nothing(frame.layup.right, board.core->strips_right);
    }
    for (const StackShare& share : frame.shares) {
        if (share.places.front().empty()) {
            continue;
        }
        add_stack(frame, weights, share, frame.layup.left, board.core->strips, left_);
        if (!right_.empty()) {
            add_stack(frame, weights, share, frame.layup.right, board.core->strips_right, right_);
        }
    }
}

VectorXd MixSlopes::of(const ShapeChange& change) const {
    if (left_.empty()) {
        return VectorXd::Zero(numbers_);
    }
    const CoreMix below = core_mix(*change.below);
    const CoreMix above = core_mix(*change.above);
    VectorXd all = part(below.left, above.left, left_);
    if (!right_.empty()) {
        all += part(below.right.value_or(below.left), above.right.value_or(above.left), right_);
    }
    return all / change.width;
}

std::vector<MixSlopes::AtOutline> MixSlopes::at_outline(const Board& board) const {
    std::vector<AtOutline> all;
    if (left_.empty()) {
        return all;
    }
    const CoreMix mix = core_mix(board);
    const std::vector<MixAtOutline> halves = core_mix_at_outline(board);
    for (std::size_t half = 0; half < halves.size(); ++half) {
        const std::vector<std::vector<double>>& shares = (half == 0 ? mix.left : *mix.right).share;
        const Owed& owed = half == 0 || right_.empty() ? left_ : right_;
        for (const MixBorder& border : halves[half].border) {
            // a share is an area over that of all strips, which grows, too
            const MatrixXd& own = owed[border.stretch];
            VectorXd by = own.row(static_cast<Index>(border.strip)).transpose();
            for (std::size_t i = 0; i < shares[border.stretch].size(); ++i) {
                by -= shares[border.stretch][i] * own.row(static_cast<Index>(i)).transpose();
            }
            all.push_back({border.place, border.by / halves[half].area[border.stretch] * by});
        }
    }
    return all;
}

} // namespace vrid
