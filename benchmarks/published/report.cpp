#include "benchmarks/published/report.hpp"

#include "benchmarks/published/open.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <sstream>

#include <nlohmann/json.hpp>

namespace vrid::published {

namespace {

const std::string intro =
    R"(# Published checks

This page is written by `cmake --build build --target verify`; do not edit it.

A check passes when our number is within its error bar plus the rounding of the published one. The
bar is that of the program: the change between two degrees on one mesh; for moments at a point the
change over two degrees counts too, for thin limits what the extrapolation adds. No tolerance is set
by hand. Where the source solves another problem (three-dimensional elasticity, a thin plate, a solid
bar) the difference belongs to the model: it is shown with its size and not judged. Where a printed
value is coarse, it is shown beside one recomputed with more digits by an independent program (folder
`published/recompute`), which is the one that judges. 'From memory' means that the page of the source
was not opened. How fast the error falls with mesh and degree: [convergence.md](convergence.md).

)";

const std::string closing = R"(
## Speed

[general_fe/README.md](general_fe/README.md) sets the time at equal error beside that of a general
finite element library; the other programs of this folder print time and error of their own.

## Not here

vrid has no bonded elastic foundation (snow only pushes), no large deflections and no ply failure: the
beams of Hetenyi, the elastica and strength criteria are not among the checks. Stresses through the
thickness are worked out here from vrid's moments; the program does not print them.

## Open

The checks that fail, and what is known of each. Any other failure ends the program with status 1.

)";

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
    switch (check->kind) {
    case Kind::other_model:
        return "other model, " + percent(*this);
    case Kind::old_print:
        return "coarse print, " + percent(*this);
    case Kind::judged:
        break;
    }
    return within() ? "passed" : "FAILED";
}

std::string summary(const std::vector<Outcome>& outcomes) {
    int passed = 0;
    int failed = 0;
    int other = 0;
    int old = 0;
    for (const Outcome& one : outcomes) {
        const Kind kind = one.check->kind;
        other += kind == Kind::other_model ? 1 : 0;
        old += kind == Kind::old_print ? 1 : 0;
        passed += kind == Kind::judged && one.within() ? 1 : 0;
        failed += kind == Kind::judged && !one.within() ? 1 : 0;
    }
    return std::to_string(passed) + " passed, " + std::to_string(failed) + " failed, " +
           std::to_string(other) + " differences between models, " + std::to_string(old) +
           " coarse printed values beside their recomputed ones";
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

std::string page(const std::vector<Outcome>& outcomes, const std::string& measured) {
    std::ostringstream text;
    text << intro << summary(outcomes) << ".\n";
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
    text << measured << closing;
    for (const auto& [name, why] : open_checks()) {
        text << "- " << name << ": " << why << ".\n";
    }
    if (open_checks().empty()) {
        text << "None.\n";
    }
    return text.str();
}

} // namespace vrid::published
