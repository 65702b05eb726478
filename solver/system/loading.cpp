#include "solver/system/loading.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/same_place.hpp"

namespace vrid {

namespace {

// Mesh lines stand where they were asked for to within the mesher's merging of lines.
constexpr double line_tolerance = 2 * same_line;

const StationLine& line_at(const PlateModel& model, double x) {
    const auto& lines = model.mesh.lines;
    const auto best =
        std::ranges::min_element(lines, [&](const StationLine& a, const StationLine& b) {
            return std::abs(a.x - x) < std::abs(b.x - x);
        });
    if (best == lines.end() || std::abs(best->x - x) > line_tolerance) {
        throw SolveError(
            "loading", "the mesh has no line across the board at x = " + std::to_string(x) + " m");
    }
    return *best;
}

// Calls visit(node, weight) with weight = int N dy for every node of the line's edges; the edges
// may run either way, so lengths count as positive.
template <class Visit>
void along_line(const PlateModel& model, const StationLine& line, const Visit& visit) {
    const ReferenceElement& r = model.reference;
    for (const int edge : line.edges) {
        const std::vector<int> nodes = edge_nodes(model.mesh, model.numbering, edge);
        Eigen::VectorXd y(r.p + 1);
        for (int i = 0; i <= r.p; ++i) {
            y(i) = model.numbering.position(1, nodes[static_cast<std::size_t>(i)]);
        }
        const Eigen::VectorXd step = (r.dN1 * y).cwiseAbs().cwiseProduct(r.rule.weight);
        visit(nodes, step, y);
    }
}

} // namespace

void clear_fixed(const std::vector<char>& fixed, Eigen::Ref<Eigen::MatrixXd> rows) {
    for (Index k = 0; k < rows.rows(); ++k) {
        if (fixed[static_cast<std::size_t>(k)] != 0) {
            rows.row(k).setZero();
        }
    }
}

Loading free_loading(const PlateModel& model) {
    const Index n = model.unknowns();
    return {std::vector<char>(static_cast<std::size_t>(n), 0), Eigen::VectorXd::Zero(n),
            Eigen::VectorXd::Zero(n)};
}

std::vector<int> line_nodes(const PlateModel& model, double x) {
    std::vector<int> all;
    for (const int edge : line_at(model, x).edges) {
        const std::vector<int> nodes = edge_nodes(model.mesh, model.numbering, edge);
        all.insert(all.end(), nodes.begin(), nodes.end());
    }
    const auto& position = model.numbering.position;
    std::ranges::sort(all, [&](int a, int b) {
        return position(1, a) != position(1, b) ? position(1, a) < position(1, b) : a < b;
    });
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

std::vector<int> strip_nodes(const PlateModel& model, double x_from, double x_to) {
    std::vector<int> all;
    for (const std::vector<int>& nodes : model.numbering.quad_nodes) {
        double mean = 0;
        for (const int node : nodes) {
            mean += model.numbering.position(0, node) / static_cast<double>(nodes.size());
        }
        if (mean > x_from && mean < x_to) {
            all.insert(all.end(), nodes.begin(), nodes.end());
        }
    }
    sort_distinct(all);
    return all;
}

RestFrame frame_at(const PlateModel& model, int node) {
    return model.rest ? model.rest->frame(model.numbering.position(0, node)) : RestFrame{};
}

double cosine_at(const PlateModel& model, int node) {
    return frame_at(model, node).C;
}

void prescribe(Loading& loading, const std::vector<int>& nodes, Component component, double value) {
    for (const int node : nodes) {
        const Index k = unknown(node, component);
        loading.fixed[static_cast<std::size_t>(k)] = 1;
        loading.motion(k) = value;
    }
}

void prescribe_turn(Loading& loading, const PlateModel& model, const std::vector<int>& nodes,
                    double turn) {
    for (const int node : nodes) {
        prescribe(loading, {node}, comp_w, turn * model.numbering.position(1, node));
    }
}

void hold_in_plane(Loading& loading, const PlateModel& model, double x_tail, double x_nose) {
    const auto nearest_axis = [&](double x) {
        const std::vector<int> nodes = line_nodes(model, x);
        return *std::ranges::min_element(nodes, [&](int a, int b) {
            return std::abs(model.numbering.position(1, a)) <
                   std::abs(model.numbering.position(1, b));
        });
    };
    const int tail = nearest_axis(x_tail);
    prescribe(loading, {tail}, comp_u);
    prescribe(loading, {tail, nearest_axis(x_nose)}, comp_v);
}

void add_line_force(Loading& loading, const PlateModel& model, double x, double force) {
    const StationLine& line = line_at(model, x);
    double width = 0;
    along_line(model, line,
               [&](const auto&, const auto& step, const auto&) { width += step.sum(); });
    along_line(model, line, [&](const auto& nodes, const auto& step, const auto&) {
        const Eigen::VectorXd share = model.reference.N1.transpose() * step * (force / width);
        for (Index i = 0; i < share.size(); ++i) {
            loading.force(unknown(nodes[static_cast<std::size_t>(i)], comp_w)) += share(i);
        }
    });
}

double line_mean(const PlateModel& model, const StationLine& line, const Eigen::VectorXd& u,
                 Component component) {
    double width = 0;
    double sum = 0;
    along_line(model, line, [&](const auto& nodes, const auto& step, const auto&) {
        const Eigen::VectorXd weight = model.reference.N1.transpose() * step;
        for (Index i = 0; i < weight.size(); ++i) {
            sum += weight(i) * u(unknown(nodes[static_cast<std::size_t>(i)], component));
        }
        width += step.sum();
    });
    return sum / width;
}

namespace {

// sum (y - y0) w dy / sum (y - y0)^2 dy over the line, y0 its middle: visit(unknown, weight of w).
template <class Visit>
void each_slope_weight(const PlateModel& model, const StationLine& line, const Visit& visit) {
    const Eigen::MatrixXd& N = model.reference.N1;
    double width = 0;
    double sum_y = 0;
    double sum_yy = 0;
    along_line(model, line, [&](const auto&, const auto& step, const auto& y_nodes) {
        const Eigen::ArrayXd y = N * y_nodes;
        width += step.sum();
        sum_y += (step.array() * y).sum();
        sum_yy += (step.array() * y * y).sum();
    });
    const double middle = sum_y / width;
    const double square = sum_yy - sum_y * middle;
    along_line(model, line, [&](const auto& nodes, const auto& step, const auto& y_nodes) {
        const Eigen::VectorXd y = N * y_nodes;
        const Eigen::VectorXd weight =
            N.transpose() * (step.array() * (y.array() - middle) / square).matrix();
        for (Index i = 0; i < weight.size(); ++i) {
            visit(unknown(nodes[static_cast<std::size_t>(i)], comp_w), weight(i));
        }
    });
}

} // namespace

double line_slope(const PlateModel& model, const StationLine& line, const Eigen::VectorXd& u) {
    double slope = 0;
    each_slope_weight(model, line, [&](Index k, double weight) { slope += weight * u(k); });
    return slope;
}

std::vector<Eigen::Triplet<double>> line_slope_load(const PlateModel& model, double x, int column) {
    std::vector<Eigen::Triplet<double>> load;
    each_slope_weight(model, line_at(model, x), [&](Index k, double weight) {
        load.emplace_back(static_cast<int>(k), column, weight);
    });
    return load;
}

} // namespace vrid
