#pragma once

// All that a program outside vrid needs: boards, BoardSolver, units, errors.
#include "io/session/board_solver.hpp"
