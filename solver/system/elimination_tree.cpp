#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "mesh/dense_memory.hpp"
#include "solver/system/elimination.hpp"

namespace vrid {

namespace {

// A group of elements, listed by rising x and by rising y of their centroids.
struct Group {
    std::array<std::vector<int>, 2> sorted;
};

struct Cut {
    int axis = 0;
    int at = 0; // the first `at` elements of sorted[axis] go left
    double score = 0;
};

// Bisects groups of elements and appends the fronts' skeletons (children, elements) in postorder.
class Bisection {
  public:
    Bisection(EliminationTree& tree, const TreeOptions& options)
        : tree_(tree), options_(options), total_(tree.dofs.nodes, 0), left_(tree.dofs.nodes, 0),
          side_(tree.dofs.centroid.size(), 0) {}

    int add(Group group, int depth) {
        const int first = static_cast<int>(tree_.fronts.size());
        EliminationFront front;
        front.depth = depth;
        front.first_in_subtree = first;
        const int nodes = count_nodes(group.sorted[0]);
        if (group.sorted[0].size() <= 1 || nodes <= options_.leaf_nodes) {
            clear_counts(group.sorted[0]);
            front.elements = std::move(group.sorted[0]);
            std::ranges::sort(front.elements);
        } else {
            const Cut cut = choose_cut(group);
            clear_counts(group.sorted[0]);
            auto [left, right] = split(std::move(group), cut);
            front.children = {add(std::move(left), depth + 1), add(std::move(right), depth + 1)};
        }
        const int number = static_cast<int>(tree_.fronts.size());
        for (const int child : front.children) {
            tree_.fronts[child].parent = number;
        }
        tree_.fronts.push_back(std::move(front));
        return number;
    }

  private:
    template <class Visit> void for_nodes(int element, Visit visit) const {
        for (int i = tree_.dofs.first[element]; i < tree_.dofs.first[element + 1]; ++i) {
            visit(tree_.dofs.node[i]);
        }
    }

    // Number of different nodes; leaves in total_ how many elements of the group have each.
    int count_nodes(const std::vector<int>& elements) {
        int nodes = 0;
        for (const int e : elements) {
            for_nodes(e, [&](int n) { nodes += total_[n]++ == 0 ? 1 : 0; });
        }
        return nodes;
    }

    void clear_counts(const std::vector<int>& elements) {
        for (const int e : elements) {
            for_nodes(e, [&](int n) { total_[n] = 0; });
        }
    }

    Cut choose_cut(const Group& group) {
        if (const Cut preferred = station_cut(group); preferred.at > 0) {
            return preferred;
        }
        const Cut x = best_cut(group, 0);
        const Cut y = best_cut(group, 1);
        return x.score <= y.score ? x : y;
    }

    // The most balanced of the preferred stations, if any is balanced enough.
    [[nodiscard]] Cut station_cut(const Group& group) const {
        const auto& sorted = group.sorted[0];
        const int size = static_cast<int>(sorted.size());
        Cut best;
        for (const double x : options_.stations) {
            const auto beyond = std::partition_point(sorted.begin(), sorted.end(), [&](int e) {
                return tree_.dofs.centroid[e].x() < x;
            });
            const int at = static_cast<int>(beyond - sorted.begin());
            if (4 * at >= size && 4 * at <= 3 * size &&
                std::abs(2 * at - size) < std::abs(2 * best.at - size)) {
                best.at = at;
            }
        }
        return best;
    }

    // The cut with the fewest nodes on it; uneven halves must earn it.
    Cut best_cut(const Group& group, int axis) {
        const auto& sorted = group.sorted[axis];
        const int size = static_cast<int>(sorted.size());
        Cut best{axis, size / 2, 1e300};
        int open = 0;
        for (int i = 0; i + 1 < size; ++i) {
            for_nodes(sorted[i], [&](int n) {
                const int seen = ++left_[n];
                open += (seen == 1 ? 1 : 0) - (seen == total_[n] ? 1 : 0);
            });
            const double uneven = std::abs(2.0 * (i + 1) / size - 1);
            const double score = open * (1 + 2 * uneven * uneven);
            if (uneven <= 0.5 && score < best.score) {
                best = {axis, i + 1, score};
            }
        }
        for (const int e : sorted) {
            for_nodes(e, [&](int n) { left_[n] = 0; });
        }
        return best;
    }

    std::array<Group, 2> split(Group group, const Cut& cut) {
        for (std::size_t i = 0; i < group.sorted[cut.axis].size(); ++i) {
            side_[group.sorted[cut.axis][i]] = static_cast<int>(i) < cut.at ? 0 : 1;
        }
        std::array<Group, 2> halves;
        for (int axis = 0; axis < 2; ++axis) {
            for (const int e : group.sorted[axis]) {
                halves[side_[e]].sorted[axis].push_back(e);
            }
        }
        return halves;
    }

    EliminationTree& tree_;
    const TreeOptions& options_;
    std::vector<int> total_; // per node: elements of the present group
    std::vector<int> left_;  // per node: of those, left of the present cut
    std::vector<char> side_;
};

// Sorts nodes along the longer extent of the set, so that neighbours on a line stay neighbours.
void sort_along_line(std::vector<int>& nodes, const std::vector<Eigen::Vector2d>& near) {
    if (nodes.empty()) {
        return;
    }
    Eigen::Vector2d low = near[nodes[0]];
    Eigen::Vector2d high = low;
    for (const int n : nodes) {
        low = low.cwiseMin(near[n]);
        high = high.cwiseMax(near[n]);
    }
    const int axis = high.x() - low.x() > high.y() - low.y() ? 0 : 1;
    std::ranges::sort(nodes, [&](int a, int b) {
        return near[a][axis] != near[b][axis] ? near[a][axis] < near[b][axis] : a < b;
    });
}

// Nodes of each front: pivots (all of their elements are in the subtree) and boundary.
class NodeSplit {
  public:
    explicit NodeSplit(EliminationTree& tree)
        : tree_(tree), unseen_(tree.dofs.nodes, 0), first_leaf_(tree.dofs.nodes, -1),
          visited_(tree.dofs.nodes, -1), order_(tree.dofs.nodes, -1) {
        for (const int n : tree.dofs.node) {
            ++unseen_[n];
        }
    }

    void run() {
        for (int f = 0; f < static_cast<int>(tree_.fronts.size()); ++f) {
            split(f);
        }
        for (EliminationFront& front : tree_.fronts) {
            std::ranges::sort(front.boundary, [&](int a, int b) { return order_[a] < order_[b]; });
        }
    }

  private:
    void split(int f) {
        EliminationFront& front = tree_.fronts[f];
        nodes_.clear();
        for (const int e : front.elements) {
            for (int i = tree_.dofs.first[e]; i < tree_.dofs.first[e + 1]; ++i) {
                const int n = tree_.dofs.node[i];
                --unseen_[n];
                first_leaf_[n] = first_leaf_[n] < 0 ? f : first_leaf_[n];
                visit(n, f);
            }
        }
        for (const int child : front.children) {
            for (const int n : tree_.fronts[child].boundary) {
                visit(n, f);
            }
        }
        for (const int n : nodes_) {
            const bool inside = unseen_[n] == 0 && first_leaf_[n] >= front.first_in_subtree;
            (inside ? front.pivots : front.boundary).push_back(n);
        }
        sort_along_line(front.pivots, tree_.node_near);
        for (const int n : front.pivots) {
            order_[n] = next_++;
        }
    }

    void visit(int n, int f) {
        if (visited_[n] != f) {
            visited_[n] = f;
            nodes_.push_back(n);
        }
    }

    EliminationTree& tree_;
    std::vector<int> unseen_;     // per node: elements not yet in a finished subtree
    std::vector<int> first_leaf_; // per node: the first leaf that has it
    std::vector<int> visited_;    // per node: by which front last
    std::vector<int> order_;      // per node: place in the elimination
    std::vector<int> nodes_;      // of the present front
    int next_ = 0;
};

// Where the incoming nodes of each front are in its own list.
void find_positions(EliminationTree& tree) {
    std::vector<int> place(tree.dofs.nodes, -1);
    for (EliminationFront& front : tree.fronts) {
        int next = 0;
        for (const auto* list : {&front.pivots, &front.boundary}) {
            for (const int n : *list) {
                place[n] = next++;
            }
        }
        for (const int e : front.elements) {
            for (int i = tree.dofs.first[e]; i < tree.dofs.first[e + 1]; ++i) {
                front.position.push_back(place[tree.dofs.node[i]]);
            }
        }
        for (const int child : front.children) {
            for (const int n : tree.fronts[child].boundary) {
                front.position.push_back(place[n]);
            }
        }
    }
}

void find_node_places(EliminationTree& tree) {
    const ElementDofs& dofs = tree.dofs;
    tree.node_near.assign(dofs.nodes, Eigen::Vector2d::Zero());
    std::vector<int> count(dofs.nodes, 0);
    for (std::size_t e = 0; e < dofs.centroid.size(); ++e) {
        for (int i = dofs.first[e]; i < dofs.first[e + 1]; ++i) {
            tree.node_near[dofs.node[i]] += dofs.centroid[e];
            ++count[dofs.node[i]];
        }
        tree.largest_element = std::max(tree.largest_element, dofs.first[e + 1] - dofs.first[e]);
    }
    for (int n = 0; n < dofs.nodes; ++n) {
        tree.node_near[n] /= std::max(count[n], 1);
    }
}

} // namespace

EliminationTree build_tree(ElementDofs dofs, const TreeOptions& options) {
    prepare_dense(1); // every solve begins here: no product before it, in the mesh, is a large one
    EliminationTree tree;
    tree.dofs = std::move(dofs);
    find_node_places(tree);
    Group all;
    for (int axis = 0; axis < 2; ++axis) {
        auto& sorted = all.sorted[axis];
        sorted.resize(tree.dofs.centroid.size());
        std::iota(sorted.begin(), sorted.end(), 0);
        std::ranges::stable_sort(sorted, [&](int a, int b) {
            return tree.dofs.centroid[a][axis] < tree.dofs.centroid[b][axis];
        });
    }
    if (!tree.dofs.centroid.empty()) {
        Bisection(tree, options).add(std::move(all), 0);
    }
    NodeSplit(tree).run();
    find_positions(tree);
    return tree;
}

} // namespace vrid
