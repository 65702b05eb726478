#include <cmath>
#include <sstream>

#include "benchmarks/measured/measured.hpp"

namespace vrid::measured {

namespace {

const std::string intro = R"(
## Measured specimens

Everything above is checked against other calculations. Here predictions stand beside things that were
weighed, bent or tapped. **No board or ski could be found whose whole construction and measured numbers
can be read in full, and no measured torsion stiffness of any sandwich**: torsion, the number this
program is for, is held against measurement only through the twisting modes of wood plates.
[examples/coupon-torsion](../examples/coupon-torsion) is the cheapest cure that we know of.

This is no pass mark of the solver: its error bars are below 0.3 % here (1 % for one mode of the flax
plate), and what is off beyond them is in the data, in the rig, or in what the model leaves out. Nothing
is tuned; what is outside the fair band says so. `ctest` fails only if a *prediction* leaves the one on
record by more than its own error bar. The board files, with facts and assumptions marked, are in
[measured](measured); target `verify` computes all rows anew, the program `measured_specimens` these alone.

![Predicted over measured, with the fair bands, and the difference in percent](measured.svg)
)";

std::string rounded(double value, int digits) {
    std::ostringstream text;
    text.precision(digits);
    text << value;
    return text.str();
}

std::string signed_percent(double percent) {
    std::ostringstream text;
    text.precision(1);
    text << std::fixed << std::showpos << percent << " %";
    return text.str();
}

std::string verdict(const Outcome& one, double band) {
    if (band == 0) {
        return "";
    }
    return std::abs(one.percent()) <= band ? "inside" : "**outside**";
}

std::string of_set(const SetOutcome& set) {
    std::ostringstream text;
    text << "\n### " << set.set.title << "\n\nSource: " << set.set.source
         << ".\n\nGiven: " << set.set.given << ".\n\nAssumed: " << set.set.assumed
         << ".\n\nFair band";
    if (set.set.band > 0) {
        text << " +-" << rounded(set.set.band, 3) << " %";
    }
    text << ": " << set.set.why
         << ".\n\n| specimen | board file | number | measured | predicted | error bar | difference "
            "| "
            "fair band |\n|---|---|---|---|---|---|---|---|\n";
    for (const Outcome& one : set.outcomes) {
        text << "| " << one.row.specimen << " | [" << one.row.board << "](measured/"
             << one.row.board << ".toml) | " << one.row.number << ", " << one.unit << " | "
             << rounded(one.row.measured, 4) << " | " << rounded(one.predicted, 4) << " | "
             << rounded(one.error, 1) << " | " << signed_percent(one.percent()) << " | "
             << verdict(one, set.set.band) << " |\n";
    }
    const Spread off = spread(set);
    text << "\nIn the mean " << signed_percent(off.mean) << ", standard deviation "
         << rounded(off.deviation, 2) << " %.";
    if (!set.set.remark.empty()) {
        text << " " << set.set.remark << ".";
    }
    return text.str() + "\n";
}

std::string of_supports(const LineSupports& supports) {
    std::ostringstream text;
    text
        << "\n### What line supports cost\n\nA panel with [45/0/-45] unidirectional faces, 275 mm "
           "wide "
           "on 500 mm ([rollers-wide](measured/rollers-wide.toml)), reaches "
        << rounded(supports.wide, 4)
        << " N/mm in `centre-flex`; a strip a tenth as wide "
           "([rollers-narrow](measured/rollers-narrow.toml)) times ten "
        << rounded(10 * supports.narrow, 4)
        << " N/mm: " << signed_percent(100 * (supports.wide / (10 * supports.narrow) - 1))
        << ". The case holds w both ways along whole lines, and loads along one, so that the plate "
           "cannot curl across as it does on a bench where it lifts off the rollers.\n";
    return text.str();
}

} // namespace

std::string section(const std::vector<SetOutcome>& sets, const LineSupports& supports) {
    std::string text = intro;
    for (const SetOutcome& set : sets) {
        text += of_set(set);
    }
    return text + of_supports(supports);
}

std::string text_table(const std::vector<SetOutcome>& sets) {
    std::ostringstream text;
    for (const SetOutcome& set : sets) {
        text << "\n" << set.set.title << "\n";
        for (const Outcome& one : set.outcomes) {
            text << "  " << one.row.specimen << ", " << one.row.number << ": measured "
                 << rounded(one.row.measured, 4) << ", predicted " << rounded(one.predicted, 7)
                 << " +- " << rounded(one.error, 2) << " " << one.unit << "   "
                 << signed_percent(one.percent()) << " " << verdict(one, set.set.band) << "\n";
        }
    }
    return text.str();
}

} // namespace vrid::measured
