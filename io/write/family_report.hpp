#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/write/limits.hpp"
#include "mesh/board/board.hpp"
#include "solver/response/quantity.hpp"

namespace vrid {

/// A number that a size of a family was matched to.
struct SizeTarget {
    std::string number;
    double wanted = 0; ///< in the bench unit
    Quantity found;
    bool met = false;
    std::string miss;                   ///< how far outside the window, with its unit
    std::optional<double> min{}, max{}; ///< of a range, in the bench unit
};

/// One size, matched: the answer, or the nearest to one.
struct SizeAnswer {
    std::string name;
    std::optional<double> rider; ///< [kg]
    bool met = false;
    Board board;
    std::vector<SizeTarget> targets;
    std::vector<std::pair<std::string, double>>
        values;        ///< set, stretched or free: path, in its file unit
    Verdicts limits{}; ///< the [limits] of its board held against it
};

struct FamilyReport {
    std::string approved, hash; ///< name and content hash of the board of the command line
    std::vector<SizeAnswer> sizes;
    std::string folder; ///< where the files are
};

/// family.json (format 1). `board`: name and hash of the approved one; `sizes`: by size `name`,
/// `rider_kg`, `met`, `board` (its own), `targets` (number, wanted, value, met, of a range min and
/// max), `values` by path, and what a report lays over each other: `mass`, `outline` (length,
/// widths, sidecut radius), `drawing` (the outline's points, millimetres) and `along` (columns as
/// sections.csv, every centimetre).
std::string family_json(const FamilyReport& report);

/// The table of targets by size.
std::string family_text(const FamilyReport& report);

} // namespace vrid
