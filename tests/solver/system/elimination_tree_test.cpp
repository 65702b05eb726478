#include <algorithm>
#include <set>

#include <catch2/catch.hpp>

#include "solver/system/elimination.hpp"

using namespace vrid;

namespace {

// A plate of nx x ny elements of degree p, nodes numbered row by row.
ElementDofs plate_dofs(int nx, int ny, int p) {
    ElementDofs dofs;
    const int across = nx * p + 1;
    dofs.nodes = across * (ny * p + 1);
    dofs.first = {0};
    for (int ey = 0; ey < ny; ++ey) {
        for (int ex = 0; ex < nx; ++ex) {
            for (int j = 0; j <= p; ++j) {
                for (int i = 0; i <= p; ++i) {
                    dofs.node.push_back((ey * p + j) * across + ex * p + i);
                }
            }
            dofs.first.push_back(static_cast<int>(dofs.node.size()));
            dofs.centroid.emplace_back(0.1 * (ex + 0.5), 0.1 * (ey + 0.5));
        }
    }
    return dofs;
}

std::set<int> nodes_of(const ElementDofs& dofs, const std::vector<int>& elements) {
    std::set<int> nodes;
    for (const int e : elements) {
        nodes.insert(dofs.node.begin() + dofs.first[static_cast<std::size_t>(e)],
                     dofs.node.begin() + dofs.first[static_cast<std::size_t>(e) + 1]);
    }
    return nodes;
}

} // namespace

TEST_CASE("a front eliminates the nodes that no element outside of its subtree knows") {
    const EliminationTree tree = build_tree(plate_dofs(9, 4, 2), {{0.3}, 28});
    REQUIRE(tree.fronts.size() > 5);
    CHECK(tree.largest_element == 9);
    std::vector<int> eliminated(static_cast<std::size_t>(tree.dofs.nodes), -1);
    std::vector<std::vector<int>> below(tree.fronts.size()); // elements of each subtree
    std::vector<int> all;
    int next = 0;
    for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
        const EliminationFront& front = tree.fronts[f];
        below[f] = front.elements;
        for (const int child : front.children) {
            const auto c = static_cast<std::size_t>(child);
            CHECK(c < f);
            CHECK(tree.fronts[c].parent == static_cast<int>(f));
            CHECK(tree.fronts[c].depth == front.depth + 1);
            below[f].insert(below[f].end(), below[c].begin(), below[c].end());
        }
        all.insert(all.end(), front.elements.begin(), front.elements.end());
        for (const int n : front.pivots) { // each node once
            CHECK(eliminated[static_cast<std::size_t>(n)] == -1);
            eliminated[static_cast<std::size_t>(n)] = next++;
        }
    }
    std::sort(all.begin(), all.end());
    CHECK(all.size() == 36); // each element in one leaf
    CHECK(std::unique(all.begin(), all.end()) == all.end());
    CHECK(next == tree.dofs.nodes);
    for (std::size_t f = 0; f < tree.fronts.size(); ++f) {
        const EliminationFront& front = tree.fronts[f];
        std::vector<int> outside;
        for (int e = 0; e < 36; ++e) {
            if (std::find(below[f].begin(), below[f].end(), e) == below[f].end()) {
                outside.push_back(e);
            }
        }
        const std::set<int> beyond = nodes_of(tree.dofs, outside);
        std::set<int> shared;
        for (const int n : nodes_of(tree.dofs, below[f])) {
            if (beyond.contains(n)) {
                shared.insert(n);
            }
        }
        CHECK(std::set<int>(front.boundary.begin(), front.boundary.end()) == shared);
        CHECK((front.parent >= 0 || front.boundary.empty()));
        for (std::size_t k = 0; k < front.boundary.size(); ++k) { // in order, after all pivots
            const auto at = [&](int n) { return eliminated[static_cast<std::size_t>(n)]; };
            CHECK((k == 0 || at(front.boundary[k - 1]) < at(front.boundary[k])));
            CHECK(at(front.boundary[k]) > at(front.pivots.back()));
        }
        // places in its own list of what comes in
        std::vector<int> own = front.pivots;
        own.insert(own.end(), front.boundary.begin(), front.boundary.end());
        std::vector<int> incoming;
        for (const int e : front.elements) {
            incoming.insert(incoming.end(),
                            tree.dofs.node.begin() + tree.dofs.first[static_cast<std::size_t>(e)],
                            tree.dofs.node.begin() +
                                tree.dofs.first[static_cast<std::size_t>(e) + 1]);
        }
        for (const int child : front.children) {
            const auto& handed = tree.fronts[static_cast<std::size_t>(child)].boundary;
            incoming.insert(incoming.end(), handed.begin(), handed.end());
        }
        REQUIRE(front.position.size() == incoming.size());
        for (std::size_t k = 0; k < incoming.size(); ++k) {
            CHECK(own[static_cast<std::size_t>(front.position[k])] == incoming[k]);
        }
    }
}

TEST_CASE("a node without elements is in no front, a node's place is the mean of its elements'") {
    ElementDofs dofs = plate_dofs(2, 1, 1);
    dofs.nodes += 1;
    const EliminationTree tree = build_tree(dofs);
    for (const EliminationFront& front : tree.fronts) {
        CHECK(std::find(front.pivots.begin(), front.pivots.end(), 6) == front.pivots.end());
    }
    CHECK((tree.node_near[0] - Eigen::Vector2d(0.05, 0.05)).norm() < 1e-15);
    CHECK((tree.node_near[1] - Eigen::Vector2d(0.1, 0.05)).norm() < 1e-15); // of both
}

TEST_CASE("the first cut stands at a station of supports, if there is one near the middle") {
    const EliminationTree tree = build_tree(plate_dofs(10, 2, 1), {{0.4}, 8});
    const EliminationFront& root = tree.fronts.back();
    REQUIRE(root.children.size() == 2);
    for (const int n : root.pivots) {
        CHECK(n % 11 == 4); // the nodes at x = 0.4
    }
}
