#include "io/toml/ascii_text.hpp"

#include <algorithm>
#include <cstdint>

namespace vrid {

namespace {

constexpr std::string_view digits = "0123456789abcdef";

// The bytes that a spelling between tildes stands for; empty if it is none.
std::string bytes_of(std::string_view hex) {
    if (hex.empty() || hex.size() % 2 != 0 || hex.size() > 8 ||
        hex.find_first_not_of(digits) != std::string_view::npos) {
        return {};
    }
    std::string bytes;
    for (std::size_t i = 0; i < hex.size(); i += 2) {
        bytes += static_cast<char>(16 * digits.find(hex[i]) + digits.find(hex[i + 1]));
    }
    return bytes;
}

} // namespace

std::string spelled(std::string_view character) {
    std::string text = "~";
    for (const char c : character) {
        const auto byte = static_cast<std::uint8_t>(c);
        text += digits[byte >> 4];
        text += digits[byte & 0xf];
    }
    return text + "~";
}

std::string unspelled(std::string_view text) {
    std::string plain;
    while (!text.empty()) {
        const std::size_t close = text[0] == '~' ? text.find('~', 1) : std::string_view::npos;
        const std::string bytes =
            close == std::string_view::npos ? std::string{} : bytes_of(text.substr(1, close - 1));
        plain += bytes.empty() ? std::string(1, text[0]) : bytes;
        text.remove_prefix(bytes.empty() ? 1 : close + 1);
    }
    return plain;
}

int file_column(const std::vector<Widened>& widened, int line, int column) {
    auto at = std::ranges::lower_bound(widened, line, {}, &Widened::line);
    int extra = 0;
    for (; at != widened.end() && at->line == line && at->column < column; ++at) {
        extra += std::min(at->extra, column - at->column);
    }
    return column - extra;
}

} // namespace vrid
