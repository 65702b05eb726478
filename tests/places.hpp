#pragma once

namespace vrid {

// Where the sources lie and what was built of them. Only places.cpp is told, so that all other
// tests compile alike wherever they lie and a folder of them may be one unit.
extern const char* const source_dir;
extern const char* const build_dir;
extern const char* const built_program;
extern const char* const cmake_program;
extern const char* const compiler_program;

} // namespace vrid
