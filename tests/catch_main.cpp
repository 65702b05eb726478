#define CATCH_CONFIG_RUNNER
#include <catch2/catch.hpp>

#include "mesh/dense_memory.hpp"
#include "solver/system/large_memory.hpp"

int main(int count, char** words) {
    vrid::end_dense_threads(); // as the program does
    vrid::keep_freed_memory();
    return Catch::Session().run(count, words);
}
