#include "benchmarks/published/open.hpp"

namespace vrid::published {

const std::map<std::string, std::string>& open_checks() {
    static const std::string refused =
        "not solved: at h/a = 1e-4 the residual is 1.2e-6 to 1.8e-6, above the limit of 1e-6";
    static const std::string digit = "off by about one unit of the last digit printed; not settled";
    static const std::string moment = "off by 0.012 to 0.05 %, our bar near 1e-7; the recomputed "
                                      "reference is in doubt, not proven";
    static const std::string layer =
        "ours is lower by up to 0.22 %; a Ritz reference that misses the layer at the free edge "
        "would be too high, an independent computation has to settle it";
    static const std::map<std::string, std::string> open{
        {"simply supported square, central force, w D / P a2", refused},
        {"simply supported rectangle 1:1.5, central force, w D / P a2", refused},
        {"simply supported rectangle 1:2.0, central force, w D / P a2", refused},
        {"clamped rectangle 1:1.5, even load, moment at the middle of the long side, Mx / q a2",
         digit},
        {"clamped rectangle 1:2.0, even load, moment at the middle of the short side, My / q a2",
         digit},
        {"clamped rectangle 1:1.5, central force, w D / P a2", digit},
        {"softly supported square, h/a = 0.050, w D / q a4", digit},
        {"clamped square, h/a = 0.100, centre Mx / q a2", moment},
        {"clamped square, h/a = 0.100, mid-side Mx / q a2", moment},
        {"clamped square, h/a = 0.200, centre Mx / q a2", moment},
        {"clamped square, h/a = 0.200, mid-side Mx / q a2", moment},
        {"clamped square, h/a = 0.0001, frequency 4", digit},
        {"free square, h/a = 0.0100, frequency 1", layer},
        {"free square, h/a = 0.0100, frequency 2", layer},
        {"free square, h/a = 0.0100, frequency 3", layer},
        {"free square, h/a = 0.0100, frequency 4", layer},
        {"free square, h/a = 0.0100, frequency 5", layer},
        {"free square, h/a = 0.1000, frequency 3", digit},
        {"free square, h/a = 0.2000, frequency 4", digit},
        {"cantilever square, h/a = 0.0100, frequency 2", layer},
        {"cantilever square, h/a = 0.0100, frequency 3", layer},
        {"cantilever square, h/a = 0.1000, frequency 5", digit},
        {"cantilever square, h/a = 0.2000, frequency 3", digit},
    };
    return open;
}

} // namespace vrid::published
