// What a factor tells on its way, and what it does where the memory for it is not there.
#include "solver/system/elimination.hpp"

#include <algorithm>
#include <chrono>
#include <fstream>
#include <new>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include <catch2/catch.hpp>
#include <sys/resource.h>
#include <unistd.h>

#include "solver/system/out_of_memory.hpp"

using namespace vrid;

namespace {

/// A square of side x side elements of degree p.
ElementDofs square_of(int side, int p) {
    ElementDofs dofs;
    const int across = side * p + 1;
    dofs.nodes = across * across;
    dofs.first = {0};
    for (int e = 0; e < side * side; ++e) {
        for (int k = 0; k < (p + 1) * (p + 1); ++k) {
            dofs.node.push_back((e / side * p + k / (p + 1)) * across + e % side * p + k % (p + 1));
        }
        dofs.first.push_back(static_cast<int>(dofs.node.size()));
        dofs.centroid.emplace_back(e % side, e / side);
    }
    return dofs;
}

} // namespace

TEST_CASE("a factor for which the memory is not there is refused before an element is asked for, "
          "with both amounts") {
    rlimit before{};
    REQUIRE(getrlimit(RLIMIT_AS, &before) == 0);
    if (before.rlim_max != RLIM_INFINITY) {
        return; // somebody else's limit
    }
    const EliminationTree small = build_tree(square_of(2, 1));
    const ElementStiffness unit = [](int, Eigen::MatrixXd& K) { K.setIdentity(); };
    const auto free_of = [](const EliminationTree& tree) {
        return std::vector<char>(static_cast<std::size_t>(node_dofs) * tree.dofs.nodes, 0);
    };
    factorise(small, unit, free_of(small)); // takes the buffers of the dense library
    const EliminationTree tree = build_tree(square_of(60, 3));
    const std::vector<char> fixed = free_of(tree);
    bool asked = false;
    const ElementStiffness first = [&](int, Eigen::MatrixXd& K) {
        asked = true;
        K.setIdentity();
    };
    constexpr double room = 99.5e6; // bytes, beside what there is
    std::ifstream pages("/proc/self/statm");
    double taken = 0;
    REQUIRE(pages >> taken);
    taken *= static_cast<double>(::sysconf(_SC_PAGESIZE));
    const rlimit limited{static_cast<rlim_t>(taken + room), before.rlim_max};
    REQUIRE(setrlimit(RLIMIT_AS, &limited) == 0);
    std::string message;
    try {
        factorise(tree, first, fixed);
    } catch (const OutOfMemory& error) {
        message = error.what();
    } catch (const std::bad_alloc&) {
        message = "too late";
    }
    REQUIRE(setrlimit(RLIMIT_AS, &before) == 0);
    CHECK_THAT(message, Catch::StartsWith("memory: the factor of 163805 unknowns needs ") &&
                            Catch::Contains(" MB, free are 9"));
    CHECK_FALSE(asked);
}

TEST_CASE("the share done is told by the calling thread, rising; what that throws comes out") {
    TreeOptions small;
    small.leaf_nodes = 4; // a front an element
    const EliminationTree tree = build_tree(square_of(6, 1), small);
    const std::vector<char> fixed(static_cast<std::size_t>(node_dofs) * tree.dofs.nodes, 0);
    const ElementStiffness slow = [](int, Eigen::MatrixXd& K) {
        std::this_thread::sleep_for(std::chrono::milliseconds(25));
        K.setIdentity();
    };
    std::vector<double> told;
    bool elsewhere = false;
    FactorOptions options;
    options.means.threads = 2;
    options.means.progress = [&, here = std::this_thread::get_id()](double share) {
        elsewhere = elsewhere || std::this_thread::get_id() != here;
        told.push_back(share);
    };
    factorise(tree, slow, fixed, options);
    REQUIRE(told.size() >= 3); // of 0.4 s
    CHECK(told.size() <= 30);
    CHECK(std::ranges::is_sorted(told));
    CHECK(told.front() > 0);
    CHECK(told.front() < 0.5);
    CHECK(told.back() <= 1);
    CHECK_FALSE(elsewhere);
    options.means.progress = [](double) { throw std::runtime_error("enough"); };
    CHECK_THROWS_WITH(factorise(tree, slow, fixed, options), "enough");
}
