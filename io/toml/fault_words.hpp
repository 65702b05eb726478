#pragma once

#include <string>
#include <vector>

#include "io/toml/table_reader.hpp"
#include "mesh/board/board_fault.hpp"

namespace vrid {

/// "file:line:column" of the key, or of the table that it would stand in; empty if neither is
/// there.
std::string place_of(const KeyPlaces& places, std::string path);

/// A fault of a board in the words of its file: "edge.width_mm: found 130; accepted: ...", numbers
/// in the file's units. \param places of the file; a board made in C++ has none
Problem fault_words(const BoardFault& fault, const KeyPlaces& places = {});

/// Whether a board with it is accepted all the same.
bool is_warning(const BoardFault& fault);

/// Notes the faults of what was read, each at its key. Leaves out what the reader has told already:
/// values out of their range (here nan) and names that nothing has.
void note_faults(Reading& reading, const std::vector<BoardFault>& faults);

} // namespace vrid
