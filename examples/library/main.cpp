// Solves a board, makes its core thicker at one station and asks what each station would do.
#include <vrid/vrid.hpp>

#include <exception>
#include <iostream>

int main(int count, char** words) {
    if (count != 2) {
        std::cerr << "usage: " << words[0] << " BOARD.toml\n";
        return 2;
    }
    try {
        vrid::BoardSolver solver(vrid::read_board(words[1])); // InputError: all problems, with places
        const vrid::Shown twist = vrid::shown(solver.study().number("nose-twist"));
        std::cout << twist.value << " +- " << twist.error << ' ' << twist.unit << '\n';

        solver.set("core.thickness_mm[12]", 4.3); // the file's units; mesh and order are kept
        std::cout << vrid::shown(solver.study().number("nose-twist")).value << '\n';
        for (const vrid::Slope& s : solver.slopes("nose-twist", "core.thickness_mm")) {
            std::cout << s.path << ' ' << s.value << '\n'; // per unit of the path
        }
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
}
