#pragma once

#include <string>
#include <vector>

namespace vrid {

/// The keys of the board file, a table of the file after the other: unit, what is accepted, what
/// holds when the file is silent, and the meaning. \param table "core": that one and those within
/// it, or a key at the top of the file; empty: all. \throws InputError when there is none of that
/// name
std::string keys_text(const std::string& table);
/// The same as JSON: "keys", each "table", "key", "form", "unit", "min", "max", "otherwise",
/// "meaning".
std::string keys_json(const std::string& table);

/// What one can ask for: tables, and keys at the top of the file.
std::vector<std::string> known_keys();

/// The comment that says what a key is: "of the sheet; mm, above 0 to 200; required".
std::string key_comment(const std::string& table, const std::string& key);

} // namespace vrid
