#pragma once

namespace vrid {

/// page.html, page.css and page.js of this folder, compiled in (CMakeLists.txt writes the source).
extern const char* const live_html;
extern const char* const live_style;
extern const char* const live_script;

} // namespace vrid
