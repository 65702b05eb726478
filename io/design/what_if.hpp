#pragma once

#include <string>
#include <variant>
#include <vector>

#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"

namespace vrid {

/// One value of a board set without a new file: "stance.width_mm=560".
struct Setting {
    std::string path;                        ///< as `vrid keys` and the messages name it
    std::variant<double, std::string> value; ///< as the file would write it
    std::string word;                        ///< as typed
};

/// Takes words "PATH=VALUE" apart: a number, or else a text, with or without quotes.
/// \throws InputError with all that are none, or that set one path twice
std::vector<Setting> settings_of(const std::vector<std::string>& words);

/// "core.thickness_scale = 1.05"
std::string text_of(const Setting& setting);

/// The board of a file with some values set. A design value (design_value_paths) is changed in the
/// board as read, so that scales and values of the library can be set too; any other key is written
/// into the text before it is read, so that every check of the reader holds for it. Name and hash
/// say that it is another board; `set` says what was set. \throws InputError with all problems
NamedBoard read_what_if(const BoardText& source, const MaterialLibrary& library,
                        const std::vector<Setting>& settings);

} // namespace vrid
