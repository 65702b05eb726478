#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace vrid {

/// A character that takes more columns in an ASCII spelling than in the file.
struct Widened {
    int line = 1, column = 1; ///< where its spelling begins, in the spelled text
    int extra = 0;            ///< columns more
};

/// A TOML text in ASCII letters only: what its strings hold beyond ASCII is spelled as ~HEX~, and
/// the tilde itself as ~7e~. The TOML parser has no defined answer to such letters in broken texts.
struct AsciiText {
    std::string text;
    std::vector<Widened> widened; ///< in the order of the text
};

/// The spelling of a character (its UTF-8 bytes): ~c3b6~.
std::string spelled(std::string_view character);
/// A parsed string or key with the spellings turned back.
std::string unspelled(std::string_view text);
/// The column in the file of a column in the spelled text.
int file_column(const std::vector<Widened>& widened, int line, int column);

} // namespace vrid
