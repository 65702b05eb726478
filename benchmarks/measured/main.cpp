// Measured specimens alone: prints the table. An argument 1..6 is the degree of the elements; with
// none it is the default, and exit status 1 says that a prediction is not the one on record.
#include <cstdlib>
#include <iostream>

#include "benchmarks/measured/measured.hpp"

int main(int argc, char** argv) try {
    const int degree = argc > 1 ? std::atoi(argv[1]) : 0;
    const auto sets = vrid::measured::run_all(VRID_SOURCE_DIR "/benchmarks/measured", degree);
    std::cout << vrid::measured::text_table(sets);
    if (degree != 0) {
        return 0;
    }
    const std::string changed = vrid::measured::changed(sets);
    std::cerr << changed;
    return changed.empty() ? 0 : 1;
} catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 3;
}
