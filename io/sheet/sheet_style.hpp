#pragma once

namespace vrid {

/// sheet.css of this folder, compiled in (CMakeLists.txt writes the source).
extern const char* const sheet_style;

} // namespace vrid
