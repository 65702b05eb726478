#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "mesh/board/board.hpp"
#include "mesh/board/error.hpp"
#include "solver/edge_condition.hpp"
#include "solver/response/quantity.hpp"
#include "solver/settings.hpp"

/// Snowboards as a shop describes them, and what they do: stiffness, modes, edge hold.
namespace vrid {

/// Reads a board file; materials and fabrics that it does not define are those that vrid ships.
/// \throws InputError with all problems of the file, each with file:line:column
Board read_board(const std::string& path);

/// A number as `vrid solve` prints it: in its bench unit, value and error bar rounded together.
struct Shown {
    double value = 0; ///< in `unit`
    double error = 0; ///< half width of the bar; 0: none
    std::string unit; ///< "N m/deg"
};
Shown shown(const Quantity& quantity); ///< in the unit that `vrid solve` prints

/// What the bench cases gave, SI.
struct Study {
    std::vector<NamedQuantity> numbers; ///< "mass", "nose-twist", "free-modes mode 1", ...
    std::vector<std::string> warnings;  ///< sentences for people
    bool rel_error_met = true;          ///< Settings::rel_error was reached, if it was set

    /// \throws InputError with the nearest name if there is none of this name
    [[nodiscard]] Quantity number(const std::string& name) const;
};

/// The board on its edge in one condition, SI.
struct EdgeStand {
    std::string no_equilibrium;         ///< why it comes to no rest; empty: it does
    std::vector<NamedQuantity> numbers; ///< "loss_nose", "contact_length", ...; empty without rest
};

/// Derivative of a number by a design value.
struct Slope {
    std::string path; ///< "core.thickness_mm[3]"
    double value = 0; ///< bench unit of the number per unit of the path
    std::string unit; ///< "N m/deg per mm"
    double now = 0;   ///< the design value, in the unit of the path
};

/// A board that is computed again and again while its design values change. Mesh and order of
/// elimination are made once and kept; with them kept, numbers are smooth in the values.
///
/// Values are given by their path in the board file and in its unit: "core.thickness_mm[3]",
/// "layer.base.angle_deg", "core.thickness_scale" (README.md lists them). Numbers go by the names
/// of `vrid sense`: "mass", "nose-twist", "EI@-270", "edge.loss_nose".
///
/// Prints nothing. Each solver is for one thread at a time; different ones may be used from
/// different threads at once (meshing takes turns). Sets OpenBLAS to one thread in the process:
/// vrid has its own. A computation throws SolveError when it cannot be done, and whatever
/// Settings::progress throws.
class BoardSolver {
  public:
    /// \throws InputError for a setting that is out of its range, and with all that is wrong with a
    /// board made by hand (check_board), by path and in the units of a board file
    explicit BoardSolver(Board board, Settings settings = {});
    BoardSolver(BoardSolver&&) noexcept; ///< the one moved from can be destroyed or assigned to
    BoardSolver& operator=(BoardSolver&&) noexcept; ///< likewise
    BoardSolver(const BoardSolver&) = delete;
    BoardSolver& operator=(const BoardSolver&) = delete;
    ~BoardSolver();

    [[nodiscard]] const Board& board() const; ///< with the values set

    /// Sets a design value. What was set before stays; scales multiply what the rest leaves.
    /// \throws InputError for a path that the board does not have or a value that it cannot take;
    /// the board stays as it was
    void set(const std::string& path, double value);

    /// All bench cases that the board allows.
    Study study();

    /// The board on its edge in all these conditions, in their order. \throws InputError for a
    /// board without a stance or a condition that cannot be
    std::vector<EdgeStand> edge(const std::vector<EdgeCondition>& conditions);

    /// Numbers by their names, those of the edge in `condition`; without one 45 degrees, 800 N,
    /// packed snow, left edge. \throws InputError for names that the board does not have
    std::vector<Quantity> numbers(const std::vector<std::string>& names,
                                  const std::optional<EdgeCondition>& condition = {});

    /// Exact derivatives of a number by the design values that the pattern means: a path, all that
    /// differ in name or station ("core.thickness_mm", "layer.angle_deg"), or * for any letters.
    /// \throws InputError for a number or pattern that the board does not have
    std::vector<Slope> slopes(const std::string& number, const std::string& pattern = "*",
                              const std::optional<EdgeCondition>& condition = {});

  private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

} // namespace vrid
