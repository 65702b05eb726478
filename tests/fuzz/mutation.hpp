#pragma once

#include <random>
#include <string>

namespace vrid::tests {

/// The text with one to four changes, such as a slip of the hand, a drawing program or somebody
/// hostile makes: numbers scaled, moved by a hair, set to another number of the text or to one that
/// no board has; texts, lines, tables and list entries left out, doubled, exchanged; now and then a
/// byte. Works on TOML, CSV and JSON, and keeps most texts readable, so that what stands behind the
/// parser is reached. The result depends on the text and the state of `random` alone.
std::string mutated(std::string text, std::mt19937& random);

} // namespace vrid::tests
