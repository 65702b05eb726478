#include "solver/system/parallel.hpp"

#include <atomic>
#include <new>
#include <stdexcept>
#include <vector>

#include <catch2/catch.hpp>

TEST_CASE("every share is done once, whatever the number of threads") {
    for (const int threads : {1, 2, 7, 300}) {
        std::vector<std::atomic<int>> done(100);
        vrid::for_each_in_parallel(100, threads,
                                   [&](int i) { ++done[static_cast<std::size_t>(i)]; });
        for (const auto& times : done) {
            CHECK(times == 1);
        }
    }
}

TEST_CASE("what a thread throws comes out of the loop") {
    for (const int thrower : {0, 5}) { // in the caller's share, in another's
        CHECK_THROWS_AS(vrid::for_each_in_parallel(6, 3,
                                                   [&](int i) {
                                                       if (i == thrower) {
                                                           throw std::bad_alloc();
                                                       }
                                                   }),
                        std::bad_alloc);
    }
}
