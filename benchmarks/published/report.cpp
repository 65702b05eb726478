#include "benchmarks/published/report.hpp"

#include "benchmarks/published/open.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <sstream>

#include <nlohmann/json.hpp>

namespace vrid::published {

namespace {

std::string shown(double value, int digits) {
    std::ostringstream text;
    text.precision(digits);
    text << value;
    return text.str();
}

std::string percent(const Outcome& one) {
    std::ostringstream text;
    text.precision(2);
    text << std::showpos << 100 * one.difference() / std::abs(one.check->published) << " %";
    return text.str();
}

} // namespace

bool Outcome::within() const {
    // our own rounding in doubles: closed forms agree to this only
    const double arithmetic = 1e-11 * std::abs(check->published);
    return std::abs(difference()) <= ours.error + check->rounding * (1 + 1e-9) + arithmetic;
}

std::string Outcome::verdict() const {
    if (check->other_model) {
        return "other model, " + percent(*this);
    }
    return within() ? "passed" : "FAILED";
}

std::string summary(const std::vector<Outcome>& outcomes) {
    int passed = 0;
    int other = 0;
    for (const Outcome& one : outcomes) {
        other += one.check->other_model ? 1 : 0;
        passed += !one.check->other_model && one.within() ? 1 : 0;
    }
    const int failed = static_cast<int>(outcomes.size()) - passed - other;
    return std::to_string(passed) + " passed, " + std::to_string(failed) + " failed, " +
           std::to_string(other) + " differences between models";
}

std::string text_table(const std::vector<Outcome>& outcomes) {
    std::ostringstream text;
    std::string family;
    for (const Outcome& one : outcomes) {
        if (one.family != family) {
            family = one.family;
            text << "\n" << family << "\n";
        }
        text << "  " << one.check->name << "\n      published " << shown(one.check->published, 9)
             << "   ours " << shown(one.ours.value, 9) << " +- " << shown(one.ours.error, 2)
             << "   difference " << shown(one.difference(), 2) << "   " << one.verdict()
             << "\n      " << one.check->source << "\n";
    }
    text << "\n" << summary(outcomes) << "\n";
    return text.str();
}

std::string json(const std::vector<Outcome>& outcomes) {
    nlohmann::ordered_json all;
    all["checks"] = nlohmann::ordered_json::array();
    for (const Outcome& one : outcomes) {
        all["checks"].push_back({{"name", one.check->name},
                                 {"source", one.check->source},
                                 {"published", one.check->published},
                                 {"ours", one.ours.value},
                                 {"error", one.ours.error},
                                 {"difference", one.difference()},
                                 {"verdict", one.verdict()}});
    }
    return all.dump(2) + "\n";
}

std::string page(const std::vector<Outcome>& outcomes) {
    std::ostringstream text;
    text
        << "# Published checks\n\nThis page is written by `cmake --build build --target verify`; "
           "do "
           "not edit it.\n\nA check passes when our number is within its error bar plus the "
           "rounding "
           "of the published one. The bar is that of the program: the change between two degrees "
           "on "
           "one mesh. Where the source solves another problem (three-dimensional elasticity, a "
           "thin "
           "plate, a solid bar) the difference belongs to the model: it is shown with its size and "
           "not judged. 'From memory' means that the page of the source was not opened. How fast "
           "the error falls with "
           "mesh and degree: [convergence.md](convergence.md).\n\n"
        << summary(outcomes) << ".\n";
    std::string family;
    for (const Outcome& one : outcomes) {
        if (one.family != family) {
            family = one.family;
            text << "\n## " << family
                 << "\n\n| check | published | ours | error bar | difference | verdict | source "
                    "|\n|---|---|---|---|---|---|---|\n";
        }
        // five digits of what rounding leaves unsure: the page must not change from run to run
        text << "| " << one.check->name << " | " << shown(one.check->published, 8) << " | "
             << shown(one.ours.value, 7) << " | " << shown(one.ours.error, 1) << " | "
             << shown(one.difference(), 1) << " | " << one.verdict() << " | " << one.check->source
             << " |\n";
    }
    text << "\n## Open\n\nThe checks that fail, and what is known of each. Any other failure ends "
            "the "
            "program with status 1.\n\n";
    for (const auto& [name, why] : open_checks()) {
        text << "- " << name << ": " << why << ".\n";
    }
    return text.str();
}

} // namespace vrid::published
