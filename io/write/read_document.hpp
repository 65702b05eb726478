#pragma once

#include <functional>
#include <string>

#include "io/write/json_parts.hpp"
#include "io/write/number.hpp"

namespace vrid {

// What all readers of vrid's own documents share. The functions on parts throw InputError without
// a file's name, or the library's own type; read_document says which file it was.

/// \throws InputError saying `what` unless it holds
void must_hold(bool holds, const std::string& what);

/// \throws InputError unless sd is a standard deviation
void must_be_deviation(double sd, const std::string& of);

/// What was not finite when it was written is null; it is nan here. \param key names it in errors
double number_of(const Json& json, const char* key);

/// {"value", "unit", "error"}; a bar that is null is not known, an absent one 0.
BenchQuantity quantity_in(const Json& json);

/// \throws InputError for the file instead of what `fill` throws
void fill_from(const Json& json, const std::string& file,
               const std::function<void(const Json&)>& fill);

/// Parses and fills; `mark` is the key that only this document has. \throws InputError for damaged
/// text, another document, another format
void read_document(const std::string& text, const std::string& file, const char* mark,
                   const std::function<void(const Json&)>& fill);

} // namespace vrid
