#pragma once

#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"
#include "io/write/limits.hpp"

namespace vrid {

/// A number that a size was matched to.
struct FoundSizeTarget {
    std::string number;
    double wanted = 0; ///< in the unit of `value`; nan: it was not finite
    BenchQuantity value;
    bool met = false;
    std::optional<double> min{}, max{}; ///< of a range, whose middle or one end `wanted` is
};
VRID_FIELDS(FoundSizeTarget, 10, number, wanted, value, met, min, max)

/// "8.0000", of a range "at least 8.0000".
std::string wanted_text(const FoundSizeTarget& target);

struct SizeDrawing {
    std::vector<std::pair<double, double>> outline; ///< [mm]
};
VRID_FIELDS(SizeDrawing, 0, outline)

/// A size of a family. What an earlier version did not write is empty.
struct FoundSize {
    std::string name;
    std::optional<double> rider_kg;
    bool met = false;
    Later<BoardEntry> board; ///< its own
    std::vector<FoundSizeTarget> targets;
    Named<double> values;    ///< set, stretched or free, by path
    Some<Verdicts> limits{}; ///< of its own board file
    std::optional<BenchQuantity> mass{};
    std::optional<Json> outline; ///< lengths, widths, sidecut radius
    Later<SizeDrawing> drawing;
    Later<Named<std::vector<double>>> along; ///< columns as sections.csv; a missing cell is nan

    /// Not written: mass and what of the outline is one number; of two sidecut radii the smaller.
    Named<BenchQuantity> figures{};
    [[nodiscard]] const BenchQuantity* figure(const std::string& what) const;
    [[nodiscard]] const std::vector<double>* column(const std::string& what) const;
};
VRID_FIELDS(FoundSize, 10, name, rider_kg, met, board, targets, values, limits, mass, outline,
            drawing, along)
void check_part(FoundSize& size);

/// The document family.json: the approved board and its sizes.
struct FoundFamily {
    int format = 1;
    std::string program;
    Later<BoardEntry> board;
    std::vector<FoundSize> sizes;
    Later<std::string> caution{vrid::caution};
};
VRID_FIELDS(FoundFamily, 0, format, program, board, sizes, caution)

/// \throws InputError for damaged text, another document or another format
FoundFamily read_found_family(const std::string& text, const std::string& file);

} // namespace vrid
