#include "solver/edge_conditions.hpp"

#include <cmath>
#include <numbers>
#include <sstream>

#include "mesh/board/error.hpp"

namespace vrid {

namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double rounding = 1e-9;

bool positive(double value) {
    return value > 0 && std::isfinite(value);
}

} // namespace

std::string description(const EdgeCondition& condition) {
    std::ostringstream text;
    text << (condition.side == Side::left ? "left, " : "right, ") << condition.tilt / degree
         << " deg, " << condition.force << " N, share " << condition.share;
    return text.str();
}

bool all_bent(const std::vector<EdgeCondition>& conditions) {
    return !conditions.empty() && conditions.front().bent;
}

void check_conditions(const Board& board, const std::vector<EdgeCondition>& conditions, bool flat) {
    std::vector<Problem> problems;
    if (!board.stance) {
        problems.push_back({board.file, "the board has no [stance]: edge hold needs its feet"});
    }
    for (const EdgeCondition& one : conditions) {
        std::string wrong;
        if (!(one.tilt > (10 - rounding) * degree && one.tilt < (80 + rounding) * degree)) {
            wrong = "the edging angle must be from 10 to 80 degrees";
        } else if (!positive(one.force)) {
            wrong = "the load must be above 0";
        } else if (!positive(one.hardness)) {
            wrong = "the hardness must be above 0";
        } else if (!(one.share >= 0 && one.share <= 1)) {
            wrong = "the front foot's share must be from 0 to 1";
        } else if (one.bent != conditions.front().bent) {
            wrong = "bent conditions and others are no one run";
        } else if (one.bent && flat) {
            wrong = "bent: not on the flat blank, which has no heights to turn with the board";
        }
        if (!wrong.empty()) {
            problems.push_back({"edge condition", description(one) + ": " + wrong});
        }
    }
    throw_if_any(problems);
}

} // namespace vrid
