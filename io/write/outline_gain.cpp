#include "io/write/outline_gain.hpp"

#include <limits>

#include "io/write/drawing.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/quad_sides.hpp"

namespace vrid {
namespace {

constexpr int gain_digits = 8;
constexpr double added = 1e-3; // of width, in the picture [m]
constexpr double along = 0.1;  // of the outline [m]

std::string why_omitted(const NumberId& request) {
    switch (request.kind) {
    case NumberId::Kind::edge:
    case NumberId::Kind::bent:
    case NumberId::Kind::shape:
        return "derivatives by the places of the nodes are those of bench cases and frequencies";
    default:
        return "needs no solve: derivatives by widths and lengths tell it";
    }
}

} // namespace

FoundOutline found_outline(const Sense& sense) {
    const OutlineDensity& outline = sense.numbers.outline;
    const double per_area = added * added; // mm2 in m2
    FoundOutline all;
    all.drawn = drawn_outline(sense.board.planform);
    for (Index i = 0; i < outline.length.size(); ++i) {
        all.at.emplace_back(in_mm(outline.at(0, i), gain_digits),
                            in_mm(outline.at(1, i), gain_digits));
        all.outward.emplace_back(round_significant(outline.outward(0, i), gain_digits),
                                 round_significant(outline.outward(1, i), gain_digits));
        all.length.value.push_back(in_mm(outline.length(i), gain_digits));
    }
    for (std::size_t k = 0; k < outline.numbers.size(); ++k) {
        const BoardNumber& number = sense.numbers.numbers[outline.numbers[k]];
        const BenchUnit unit = bench_unit(number.quantity.unit);
        const Eigen::VectorXd gain =
            outline.density.col(static_cast<Index>(k)) * unit.per_si * per_area;
        all.gains.push_back(
            {number_name(number.request), unit.name + " per mm2", {gain.begin(), gain.end()}});
    }
    for (std::size_t k = 0; k < sense.numbers.numbers.size(); ++k) {
        if (!contains(outline.numbers, k)) {
            const NumberId& request = sense.numbers.numbers[k].request;
            all.omitted.emplace_back(number_name(request), why_omitted(request));
        }
    }
    return all;
}

void add_outline_gain(const Sense& sense, QuadGrid& grid) {
    const OutlineDensity& outline = sense.numbers.outline;
    const Index each = Index(grid.n) * grid.n;
    const std::vector<OutlineEdge>& edges = outline.mesh->outline; // in the order of the vertices
    for (std::size_t k = 0; k < outline.numbers.size(); ++k) {
        const BoardNumber& number = sense.numbers.numbers[outline.numbers[k]];
        const Eigen::VectorXd percent = 100 * added * along / number.quantity.value *
                                        outline.density.col(static_cast<Index>(k));
        Eigen::RowVectorXd values = Eigen::RowVectorXd::Constant(
            grid.points.cols(), std::numeric_limits<double>::quiet_NaN());
        for (std::size_t i = 0; i < edges.size(); ++i) {
            const double from = percent(static_cast<Index>(i));
            const double to = percent(static_cast<Index>((i + 1) % edges.size()));
            const std::vector<Index> side = side_points(edges[i].side, grid.n - 1);
            for (std::size_t s = 0; s < side.size(); ++s) {
                const double share = static_cast<double>(s) / (grid.n - 1);
                values(each * edges[i].quad + side[s]) = (1 - share) * from + share * to;
            }
        }
        grid.fields.push_back(
            {number_name(number.request) + " [% per mm of width over 100 mm]", {}, values});
    }
}

} // namespace vrid
