#include "tests/places.hpp"

namespace vrid {

const char* const source_dir = VRID_SOURCE_DIR;
const char* const build_dir = VRID_BINARY_DIR;
const char* const built_program = VRID_PROGRAM;
const char* const cmake_program = VRID_CMAKE;
const char* const compiler_program = VRID_COMPILER;

} // namespace vrid
