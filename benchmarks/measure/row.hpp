#pragma once

#include <string>
#include <vector>

namespace vrid::measure {

enum class Verdict { met, not_met, not_here };

/// A row of the table: a figure held against its target.
struct Row {
    int target = 0;     ///< in the list of targets (main.cpp)
    std::string what;   ///< "factorisation over the dense limit, 1e6 unknowns"
    std::string figure; ///< with its unit and range
    std::string wanted; ///< "at most 1.5"
    Verdict verdict = Verdict::not_here;
    std::string why; ///< of a figure that is not measured here
};

/// "1.74 (1.69 to 1.81)": median and ends of some runs, with three digits.
std::string spread_text(const std::vector<double>& all);
/// Three digits.
std::string number_text(double value);

Row at_most(int target, const std::string& what, const std::vector<double>& runs, double limit,
            const std::string& unit = "");
Row at_least(int target, const std::string& what, const std::vector<double>& runs, double limit,
             const std::string& unit = "");
Row not_here(int target, const std::string& what, const std::string& wanted,
             const std::string& why);

/// The whole table, wide enough for its widest cells.
std::string table_text(const std::vector<Row>& rows);

} // namespace vrid::measure
