#pragma once

#include <optional>
#include <string>
#include <vector>

#include "io/design/read_lot.hpp"

namespace vrid {

/// What the rig's file says of one number or measured value, SI.
struct RigReading {
    std::string name;
    std::optional<double> sd; ///< noise of one reading, above 0; nothing: from repeats
    double bias_sd = 0;       ///< of the calibration, one for the lot
    std::string place;
};

/// Values that may have moved.
struct RigFree {
    std::vector<std::string> paths;
    std::string place;
};

/// A group of [tolerance] whose factor is asked for together with the others here.
struct RigScatter {
    std::string group;
    std::string place;
};

/// The content of a rig's file.
struct Rig {
    std::string file;
    std::vector<RigReading> readings;
    std::vector<RigFree> free;
    std::vector<RigScatter> scatter;
};

/// \throws InputError with all problems, each with its place
Rig read_rig_text(const std::string& text, const std::string& file, const Board& board);
Rig read_rig(const std::string& path, const Board& board);

/// What the file says of a name.
const RigReading* rig_reading(const Rig& rig, const std::string& name);

} // namespace vrid
