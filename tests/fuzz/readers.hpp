#pragma once

#include <string>
#include <vector>

namespace vrid::tests {

/// A reader of the program as a fuzzer sees it.
struct Reader {
    std::string name; ///< "board"
    /// Reads the text to the end of what the program does with it without solving, and checks what
    /// comes out. False: refused as a user is told it. \throws anything else: a fault of the
    /// program
    bool (*read)(const std::string& text);
    std::vector<std::string> (*seeds)(); ///< texts to start from
};

const std::vector<Reader>& readers();

/// \throws std::invalid_argument
const Reader& reader_named(const std::string& name);

} // namespace vrid::tests
