#pragma once

#include <string>

namespace vrid {

/// A value or a layer of a variant that its board as drawn has otherwise.
struct VariantChange {
    std::string what;          ///< "core.thickness_scale", "layer lower glass"
    std::string before, after; ///< empty: not there
    friend bool operator==(const VariantChange&, const VariantChange&) = default;
};

} // namespace vrid
