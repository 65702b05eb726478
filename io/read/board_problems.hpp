#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/board.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

/// What only sections tell of a board that check_board lets pass: a place without any layer, a core
/// that a layer or a bevel goes through. \param places of its file; a board made in C++ has none
std::vector<Problem> section_problems(const Board& board, const KeyPlaces& places = {});

/// Looks at a board that may be made by hand as the reader looks at one of a file.
/// \throws InputError with all that keeps it from being computed, by path and in the units of a
/// board file
void check_made_board(const Board& board);

/// What of a board is held against a range of boards as they are built.
enum class Judged {
    weight,
    total,
    sheet,
    fabric,
    beyond_tip,
    inside_contact,
    tip_length,
    waist,
    fibre_fraction,
    twist_to_bend,
    rest_radius,
    rest_thickness
};

/// One row of the table in usual_ranges.cpp.
struct Usual {
    Judged what;
    double min = 0, max = 0; ///< max: infinite where there is no upper end
    std::string_view unit;
    std::string_view reason;
};

/// Collects what is doubtful of one board. Both arguments must outlive it.
class Judge {
  public:
    /// \param places "file:line:column" by key path
    Judge(const Board& board, const std::map<std::string, std::string>& places)
        : board_(board), places_(places) {}

    [[nodiscard]] const Board& board() const { return board_; }
    [[nodiscard]] const std::vector<Problem>& found() const { return found_; }

    /// A doubt about a key, or about the table that it would stand in.
    void say(const std::string& path, const std::string& what);
    /// Says so when a value is outside its range. \param value in the unit of the range
    /// \param label what it is \param where follows the value, " at x = 3 mm"
    void hold(Judged what, double value, const std::string& path, const std::string& label,
              const std::string& where = "");
    /// The same of values by station [m]: says so once, of the one that is farthest outside.
    void hold(Judged what, const std::map<double, double>& values, const std::string& path,
              const std::string& label);

  private:
    const Board& board_;
    const std::map<std::string, std::string>& places_;
    std::vector<Problem> found_;
};

/// What of a board can exist but hardly does: values outside the ranges of boards as they are built
/// (the table in usual_ranges.cpp, a reason each; common practice, no source), and parts that
/// contradict each other. A rectangle or a polygon is a coupon: of it only its layers are judged.
/// The board itself is accepted by all readers and solvers.
/// \param places "file:line:column" by key path of the board file; a message whose key or table is
/// not among them has no place, as for a board made in C++.
/// \return one line each: "core.thickness_mm[0]: found ...; usual: ..."
std::vector<Problem> implausible(const Board& board,
                                 const std::map<std::string, std::string>& places = {});

} // namespace vrid
