// How fast the error falls with the mesh and with the degree: a smooth solution, distorted quads, a
// skew corner, a board. Argument: a folder for convergence.md and convergence.svg (the target
// `convergence` writes those of the sources).
#include <cstdio>
#include <fstream>

#include "benchmarks/convergence/problem.hpp"

int main(int count, char** words) {
    using namespace vrid::convergence;
    const std::vector<Problem> problems{smooth_plate(),      distorted_plate(),
                                        skew_corner(),       board("centre-flex"),
                                        board("nose-twist"), board("full-twist")};
    const std::string text = page(problems);
    std::fputs(text.c_str(), stdout);
    if (count > 1) {
        std::ofstream(std::string(words[1]) + "/convergence.md") << text;
        std::ofstream(std::string(words[1]) + "/convergence.svg") << picture(problems);
    }
}
