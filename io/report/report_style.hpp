#pragma once

namespace vrid {

/// report.css of this folder, compiled in (CMakeLists.txt writes the source). Six line colours (c),
/// ten layer colours (l), six shades of the map (m) with the ink on them (v), kept by
/// tests/io/report/palette_test: apart in protan and deutan vision, lines and ink readable on their
/// ground. Nothing is told by colour alone: lines differ by dashes, cells say their number.
extern const char* const report_style;

/// report.js: draws two rows' curves over each other, and the second against the first in a table.
extern const char* const report_script;

} // namespace vrid
