#pragma once

#include <functional>
#include <string>

namespace vrid {

/// What a load does of which the answer is no multiple.
struct LoadTry {
    double use = 0;      ///< of the strength: a stress over what is borne, 1 at failure
    std::string why_not; ///< there is no such state; empty: there is
};

/// The load at which the use is 1.
struct RaisedLoad {
    double load = 0;     ///< [as tried]; where use does not get to 1, the last with a state
    double use = 0;      ///< there
    double growth = 1;   ///< d ln use / d ln load there
    std::string why_not; ///< use does not get to 1; empty: it does, to a thousandth
    int tries = 0;
};

/// Raises or lowers a load by secants of ln use over ln load, kept between the loads known to be
/// below and above. Where a load has no state, halves the way back to the last that has one.
/// \param start with a state \param most the largest load that is tried
RaisedLoad raise_load(double start, double most, const std::function<LoadTry(double)>& at);

} // namespace vrid
