#include "io/design/text_edits.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "io/write/number.hpp"

namespace vrid {

std::string with_edits(const std::string& text, std::vector<TextEdit> edits) {
    std::ranges::stable_sort(edits, {}, &TextEdit::at);
    std::string edited;
    std::size_t done = 0;
    for (const TextEdit& edit : edits) {
        edited.append(text, done, edit.at - done).append(edit.with);
        done = edit.at + edit.length;
    }
    return edited.append(text, done);
}

std::size_t offset_of(const std::string& text, const Reading& reading,
                      const toml::source_position& position) {
    std::size_t at = text.starts_with("\xef\xbb\xbf") ? 3 : 0; // the parser saw no byte order mark
    const auto line = static_cast<int>(position.line);
    for (int i = 1; i < line; ++i) {
        at = text.find('\n', at) + 1;
    }
    const int column = file_column(reading.widened, line, static_cast<int>(position.column));
    for (int i = 1; i < column && at < text.size(); ++i) {
        ++at; // the rest of a character are bytes 10xxxxxx
        while (at < text.size() && (static_cast<std::uint8_t>(text[at]) & 0xc0U) == 0x80U) {
            ++at;
        }
    }
    return at;
}

std::string file_number(double value) {
    constexpr int digits = 12; // the way to SI and back takes the last three or four of sixteen
    return shortest(round_significant(value, digits) + 0.0); // no -0
}

std::string quoted(const std::string& text) {
    std::string all = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') {
            all += '\\';
        }
        all += c;
    }
    return all + "\"";
}

} // namespace vrid
