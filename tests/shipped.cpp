#include "tests/shipped.hpp"

#include "io/read/read_board.hpp"
#include "tests/places.hpp"

namespace vrid::tests {

const MaterialLibrary& shipped_library() {
    static const MaterialLibrary library =
        read_material_library(std::string(source_dir) + "/io/materials");
    return library;
}

Board shipped_board(const std::string& example) {
    return read_board(std::string(source_dir) + "/examples/" + example + "/board.toml",
                      shipped_library());
}

} // namespace vrid::tests
