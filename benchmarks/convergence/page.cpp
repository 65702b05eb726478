#include <cmath>
#include <limits>
#include <sstream>

#include "benchmarks/convergence/problem.hpp"

namespace vrid::convergence {

namespace {

// Below this share an error is the solver's rounding or the reference's own.
constexpr double rounding = 3e-9;

std::string shown(double error) {
    std::ostringstream text;
    text.precision(2);
    text << std::scientific << error;
    return error < rounding ? "rounding" : text.str();
}

std::string shown_order(double order) {
    std::ostringstream text;
    text.precision(1);
    text << std::fixed << order;
    return std::isnan(order) ? "" : text.str();
}

std::string size_name(const Problem& problem, double size) {
    std::ostringstream text;
    text << size << (problem.by_quads ? " a side" : " mm");
    return text.str();
}

std::string table(const Problem& problem) {
    std::ostringstream text;
    text << "| degree |";
    for (const double size : problem.size) {
        text << " " << size_name(problem, size) << " |";
    }
    text << " order in h |\n|---|";
    for (std::size_t k = 0; k <= problem.size.size(); ++k) {
        text << "---|";
    }
    text << "\n";
    for (std::size_t d = 0; d < problem.degrees.size(); ++d) {
        text << "| " << problem.degrees[d] << " |";
        for (const double error : problem.error[d]) {
            text << " " << shown(error) << " |";
        }
        text << " " << shown_order(order_in_size(problem, d)) << " |\n";
    }
    text << "| order in p |";
    for (std::size_t k = 0; k < problem.size.size(); ++k) {
        text << " " << shown_order(order_in_degree(problem, k)) << " |";
    }
    text << " |\n";
    return text.str();
}

} // namespace

double order_in_size(const Problem& problem, std::size_t degree) {
    const std::vector<double>& error = problem.error[degree];
    for (std::size_t k = error.size() - 1; k > 0; --k) {
        if (error[k] > rounding && error[k - 1] > rounding) {
            const double ratio = problem.size[k] / problem.size[k - 1];
            return std::log(error[k - 1] / error[k]) / std::abs(std::log(ratio));
        }
    }
    return std::numeric_limits<double>::quiet_NaN();
}

double order_in_degree(const Problem& problem, std::size_t size) {
    for (std::size_t d = problem.degrees.size() - 1; d > 0; --d) {
        const double fine = problem.error[d][size];
        const double coarse = problem.error[d - 1][size];
        if (fine > rounding && coarse > rounding) {
            return std::log(coarse / fine) /
                   std::log(double(problem.degrees[d]) / problem.degrees[d - 1]);
        }
    }
    return std::numeric_limits<double>::quiet_NaN();
}

std::string page(const std::vector<Problem>& problems) {
    std::ostringstream text;
    text
        << "# Convergence\n\nThis page is written by `cmake --build build --target convergence`; "
           "do not edit it.\n\nRelative error of a work or stiffness. Order in h: q in h^q, from "
           "the two finest meshes above rounding; a smooth solution gives 2 p. Order in p: q in "
           "p^-q, from the two highest degrees above rounding; it grows with p while a solution is "
           "smooth and settles where a corner rules. Against a reference of finite accuracy the "
           "last digits of the smallest errors are the reference's.\n\n"
           "![Error against mesh size, a line a degree](convergence.svg)\n";
    for (const Problem& problem : problems) {
        text << "\n## " << problem.title << "\n\n"
             << problem.what << ". Reference: " << problem.reference << ".\n\n"
             << table(problem);
    }
    return text.str();
}

} // namespace vrid::convergence
