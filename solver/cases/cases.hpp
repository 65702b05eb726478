#pragma once

#include <functional>
#include <string>
#include <vector>

#include "solver/response/quantity.hpp"
#include "solver/system/loading.hpp"

namespace vrid {

/// What a user needs to know of a bench case.
struct CaseInfo {
    std::string name;                   ///< "nose-twist"
    std::string held, loaded, reported; ///< one phrase each
};

/// A bench case: how to hold and load the board. Its stiffness is force over deflection of the
/// load's own line when `loading` has a force, else the work done at unit prescribed turn. A case
/// of free vibration has `modes` instead of a loading, one of cooling `cools_to`.
struct BenchCase {
    CaseInfo info;
    Unit unit = Unit::none;
    bool needs_feet = false;                                   ///< [stance]
    std::function<std::vector<double>(const Board&)> stations; ///< lines the mesh must have [m]
    std::function<Loading(const Board&, const PlateModel&)> loading;
    int modes = 0; ///< elastic frequencies of the free board to report
    /// Of a case that cools the free board down: to which of its temperatures; null: none.
    double Cure::*cools_to = nullptr;
};

/// The table of bench cases, in the order they are printed.
const std::vector<BenchCase>& case_table();

/// The case of that name, which is in the table.
const BenchCase& bench_of(const std::string& name);

/// Why the board cannot have the case; empty if it can.
std::string missing_for(const BenchCase& bench, const Board& board);

/// The same for people.
std::vector<CaseInfo> bench_cases();

/// Stations of the contact lines: tail, nose [m].
double tail_contact(const Board& board);
double nose_contact(const Board& board);

// One file a case or a pair of cases at nose and tail.
BenchCase centre_flex();
BenchCase nose_flex();
BenchCase tail_flex();
BenchCase nose_twist();
BenchCase tail_twist();
BenchCase stance_twist();
BenchCase full_twist();
BenchCase free_modes();
BenchCase release();
BenchCase cold();

} // namespace vrid
