#pragma once

#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"

namespace vrid {

/// A piece of a text and what is to stand there instead.
struct TextEdit {
    std::size_t at = 0, length = 0; ///< [bytes]; length 0: inserted before `at`
    std::string with;
};

/// The text with all edits made; they do not overlap. Several insertions at one place keep their
/// order.
std::string with_edits(const std::string& text, std::vector<TextEdit> edits);

/// The byte of a file's text at a place that the parser tells; `reading` is the one of parse_toml.
std::size_t offset_of(const std::string& text, const Reading& reading,
                      const toml::source_position& position);

/// A number for a file: the fewest digits that give back the value rounded to twelve significant
/// ones, so that 6.8500000000000005 is 6.85.
std::string file_number(double value);

/// A text in double quotes for a file, on one line.
std::string quoted(const std::string& text);

} // namespace vrid
