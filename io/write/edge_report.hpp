#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "io/write/edge_document.hpp"
#include "mesh/board/board.hpp"
#include "solver/design/number_id.hpp"
#include "solver/edge.hpp"

namespace vrid {

/// A board on its edge in all conditions asked for: what the edge writers write.
struct EdgeHold {
    Board board;
    EdgeResult result;
    std::vector<std::string> set{};  ///< what --set changed
    std::vector<Problem> warnings{}; ///< of the board file
};

/// "edge 45 deg 800 N 5 N/mm3": a condition's name in limits, summaries and reports; then "right",
/// "share 0.4" and "bent" where they are not left, 0.5 and of small motion.
std::string edge_condition_name(const EdgeCondition& condition);
/// The condition that numbers of the edge are of, "edge 45 deg 800 N 0.5 N/mm3"; empty: none is.
std::string condition_of(const std::vector<NumberId>& numbers, const EdgeCondition& condition);
/// The line that a text has of it: "  numbers on the edge: 45 deg 800 N 0.5 N/mm3"; empty: none.
std::string condition_line(const std::string& condition);

/// "left" or "right".
std::string side_name(const EdgeCondition& condition);

/// A condition's hardness as people write it, in N/mm3 or with a linear law in N/mm2; with that
/// unit.
double bench_hardness(const EdgeCondition& condition);
std::string hardness_text(const EdgeCondition& condition);

WrittenCondition written_condition(const EdgeCondition& condition);

/// Whether a number of edge_numbers is one to watch from run to run: positions along the board and
/// the balance of forces are not.
bool is_watched_edge_number(const std::string& name);

/// The watched numbers of every condition at rest: "edge 45 deg 800 N 5 N/mm3 loss nose".
std::vector<NamedQuantity> watched_edge_numbers(const EdgeResult& result);

/// Whether a limit of this name is on a number of the edge.
bool is_edge_limit(const std::string& name);
/// Limits against numbers and those of the edge. One on "edge.NAME" holds in every condition that
/// has no limit of its own on that number: there its verdict has the number's name in the
/// condition.
Verdicts judge_with_edge(const std::map<std::string, Limit>& limits,
                         std::vector<NamedQuantity> numbers, const EdgeResult& result);
/// Those of the board's limits that are on the edge.
Verdicts edge_verdicts(const EdgeHold& hold);

/// "loss nose" of "loss_nose".
std::string in_words(std::string name);

/// Tables for a terminal: numbers with their bars; of several conditions one table with a row each,
/// and with `details` all numbers of each below it. With a second board in the same conditions each
/// number stands beside its difference, "not resolved" inside the two bars.
std::string edge_text(const EdgeHold& hold, bool details);
std::string edge_text(const EdgeHold& hold, const EdgeHold& other);

/// The document edge.json, format 1: `format`, `program`, `board` {name, hash}, `shape`
/// ("rest" or "flat"), `motion` ("large" when bent, else "small"), `conditions` (each
/// `name`, `angle_deg`, `force_N`, `hardness` in N/mm3 or N/mm2, `share`, `side`, `law`, then the
/// numbers of edge_numbers as {value, unit, error} and `balance` plain, or `no_equilibrium` with
/// the reason), `limits` (on the edge, as in result.json), `mesh`, `warnings`; with a second
/// board `compared`: {`board`, `conditions`, `warnings`, `limits`} and in each of its conditions
/// `difference` by number: {value, unit, error, resolved}.
std::string edge_json(const EdgeHold& hold, const EdgeHold* other);

/// edge.csv: condition, x_mm, y_mm, q_Npmm, depth_mm, angle_deg, w_mm, side, edging_deg, force_N,
/// hardness, share; one row per condition and point of the edge from tail to nose.
std::string edge_csv(const EdgeResult& result);

/// Writes edge.json, edge.csv, drawing.json, and for each condition edge-N.vtu (the displaced
/// board) and edge-N.vtp (its edge) into the folder: together or not at all. \throws OutputError
void write_edge(const EdgeHold& hold, const EdgeHold* other, const std::string& folder,
                const std::function<void()>& between);

} // namespace vrid
