#pragma once

#include <memory>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "solver/design/board_numbers.hpp"
#include "solver/strength_study.hpp"

namespace vrid {

/// What to find of the numbers.
struct NumbersWanted {
    bool slopes = true;
    bool densities = false;  ///< with the slopes, where to sand
    EdgeCondition edge = {}; ///< for the edge results
    /// Of the values that move lines those whose slopes are wanted; slopes by others are 0.
    std::vector<LineValue> lines = {};
    bool outline = false; ///< with the slopes, where to add width
};

/// A board on one mesh: its values may be set, mesh and order of elimination stay. The mesh follows
/// from the board as it was and is made when it is first needed; copies share it. When values that
/// move lines are set the mesh is led along with them; where it would get bad, another is made.
/// Copies may be used from different threads at once.
class Session {
  public:
    /// \param cases that will be asked for: the mesh has their lines; empty: all that the board
    /// allows
    explicit Session(Board board, Settings settings = {}, std::vector<std::string> cases = {});

    [[nodiscard]] const Board& board() const { return *board_; } ///< with the values set
    [[nodiscard]] const Settings& settings() const { return settings_; }
    /// How the next is computed; degree and size stay. \throws std::logic_error if they are others
    void use(Settings settings);

    /// The design values of the board as it was, at what they are set to.
    [[nodiscard]] std::vector<DesignValue> values() const;
    /// The board with these values and no others set. \throws InputError when no board of that
    /// shape exists; what was set before stays
    void set(SetValues values);

    /// The session's cases. With rel_error the first refines, and the rest goes on with its mesh.
    /// \param concavity as of StudyOptions [m]
    StudyResult study(const std::vector<double>& concavity = {});
    /// \param motion also the whole board's motion for every condition
    EdgeResult edge(const std::vector<EdgeCondition>& conditions, bool motion = false);
    /// The session's static cases with the load at which the laminate first gives. On a mesh of its
    /// own, finer at clamps. \throws InputError where there is no static case
    StrengthResult strength();
    /// \throws std::logic_error for a number of a case that is none of the session's
    BoardNumbers numbers(const std::vector<NumberId>& requests, const NumbersWanted& wanted = {});

    /// Another board on this session's meshes if it differs in its section only; if its lines are
    /// others, on meshes of its own.
    [[nodiscard]] Session on_mesh(Board board) const;
    /// The same board and values; the mesh follows from the section as it is now.
    [[nodiscard]] Session afresh() const;

    /// Mesh and order for the cases, and for the edge; made if there are none yet.
    const SharedPrepared& prepared();
    const SharedPrepared& edge_prepared();

  private:
    [[nodiscard]] Settings as_prepared() const;

    StrengthOptions strength_options(std::vector<std::string> cases);
    [[nodiscard]] SharedPrepared led(const SharedPrepared& prepared, bool on_edge) const;
    /// The mesh there is, led to the board's lines; null: a new one is needed.
    const SharedPrepared* there(const SharedPrepared& own, SharedPrepared& led_on, bool edge);
    void draw_afresh();

    /// As it was; with the values set; that whose section and lines the meshes were made from.
    std::shared_ptr<const Board> start_, board_, drawn_;
    SetValues set_;
    Settings settings_;
    std::vector<std::string> cases_;
    SharedPrepared prepared_, edge_prepared_; ///< of drawn_
    SharedPrepared strength_prepared_;        ///< of a board with these lines, for strength_cases_
    std::vector<std::string> strength_cases_;
    SharedPrepared led_, edge_led_; ///< the first two, led to lines of board_ that are others
};

} // namespace vrid
