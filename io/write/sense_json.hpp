#pragma once

#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"

namespace vrid {

/// What one workshop step of a design value does to a number.
struct StepChange {
    std::string of, to;                     ///< the number, the design value
    std::optional<double> x{};              ///< of a core station [mm]
    double value = 0;                       ///< the derivative
    std::optional<double> below{}, above{}; ///< its two sides where lines part
    std::optional<bool> kink{};             ///< they part
    Later<std::string> unit{};              ///< of the derivative
    OrNull<double> percent_per_step{};      ///< of the number; nothing for a position or a zero
    double step = 0;                        ///< in step_unit
    std::string step_unit{};                ///< "mm"; empty: a pure number
    /// Of the number, in its unit.
    [[nodiscard]] double change() const { return value * step; }
};
VRID_FIELDS(StepChange, 10, of, to, x, value, below, above, kink, unit, percent_per_step, step,
            step_unit)
void check_part(const StepChange& one);

struct SensedNumber {
    std::string name;
    Measured quantity;
    std::vector<StepChange> steps; ///< largest first; together they are `derivatives`
};
VRID_FIELDS(SensedNumber, 0, quantity)

/// What width does to a number, by vertex of the outline [the number's unit per mm2].
struct WidthGain {
    std::string of;
    Later<std::string> unit;
    std::vector<double> gain;
};
VRID_FIELDS(WidthGain, 8, of, unit, gain)

/// Where to add width: the outline and its vertices [mm].
struct FoundOutline {
    std::vector<std::pair<double, double>> drawn, at, outward;
    Later<std::vector<double>> length; ///< that belongs to a vertex
    std::vector<WidthGain> gains;
    std::vector<std::pair<std::string, std::string>> omitted; ///< number, why
    /// By vertex, in percent per mm over 100 mm; empty without gains of the number.
    [[nodiscard]] std::vector<double> widening(const SensedNumber& number) const;
};
VRID_FIELDS(FoundOutline, 8, drawn, at, outward, length, gains, omitted)
void check_part(const FoundOutline& outline);

/// The document sense.json.
struct SenseFindings {
    int format = 1;
    std::string program;
    BoardEntry board;
    Some<std::string> edge; ///< the condition of numbers on the edge
    ByName<SensedNumber> numbers;
    std::optional<FoundOutline> outline;
    std::vector<std::string> warnings;
    Later<std::string> caution{vrid::caution};
};

Json json_of(const SenseFindings& found);
/// The other way. \param file names it in errors \throws InputError for damaged text, another
/// document, another format, numbers that cannot be
SenseFindings read_sense(const std::string& text, const std::string& file);

} // namespace vrid
