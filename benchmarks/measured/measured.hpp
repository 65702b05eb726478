#pragma once

#include <string>
#include <vector>

namespace vrid::measured {

/// One reading of a thing that was weighed, bent or tapped, and what is predicted for it. Values in
/// bench units (N/mm, Hz).
struct Row {
    std::string specimen;
    std::string board;  ///< file in benchmarks/measured
    std::string number; ///< as vrid names it: "centre-flex", "free-modes mode 3"
    double measured = 0;
    /// The prediction on record, by degree 6: the default degree has to give it within its own bar.
    double record = 0;
    std::string bench = {}; ///< bench file: the number is the one after `vrid calibrate` with it
};

/// Readings of one source, described in one way.
struct Set {
    std::string title, short_title;
    std::string source;
    std::string given, assumed; ///< facts apart from assumptions
    double band = 0;            ///< fair difference of one reading [%]; 0: none
    std::string why;            ///< where the band comes from
    std::string remark;         ///< printed below the table
    std::vector<Row> rows;
};

// One file a source.
std::vector<Set> panels();
std::vector<Set> plates();
std::vector<Set> strips();
std::vector<Set> flax();

struct Outcome {
    Row row;
    double predicted = 0, error = 0; ///< bench units
    std::string unit;
    [[nodiscard]] double percent() const { return 100 * (predicted / row.measured - 1); }
    /// Whether the prediction is still the one on record.
    [[nodiscard]] bool as_recorded() const;
};

struct SetOutcome {
    Set set;
    std::vector<Outcome> outcomes;
};

/// Computes every row. \param folder with the board files \param degree 0: the default
/// \throws InputError, SolveError
std::vector<SetOutcome> run_all(const std::string& folder, int degree);

/// Stiffness of the same panel on line supports over that of a strip a tenth as wide, times ten.
struct LineSupports {
    double wide = 0, narrow = 0; ///< N/mm
};
LineSupports line_supports(const std::string& folder);

/// Mean and standard deviation of the differences of a set [%].
struct Spread {
    double mean = 0, deviation = 0;
};
Spread spread(const SetOutcome& set);

/// The section of the page benchmarks/README.md.
std::string section(const std::vector<SetOutcome>& sets, const LineSupports& supports);
std::string text_table(const std::vector<SetOutcome>& sets);
/// Predicted over measured, SVG.
std::string picture(const std::vector<SetOutcome>& sets);

/// Predictions that are not the ones on record, one a line; empty: none.
std::string changed(const std::vector<SetOutcome>& sets);

} // namespace vrid::measured
