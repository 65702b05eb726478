#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/board/error.hpp"

namespace vrid {

/// What of a board is held against a range of boards as they are built.
enum class Judged {
    weight,
    total,
    sheet,
    fabric,
    beyond_tip,
    inside_contact,
    tip_length,
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

  private:
    const Board& board_;
    const std::map<std::string, std::string>& places_;
    std::vector<Problem> found_;
};

} // namespace vrid
