#pragma once

#include <string>

namespace vrid {

/// A text within HTML, SVG or XML: a layer may be named "a < b". (In a header of its own, as the
/// module of the field files stands apart from the program.)
inline std::string escaped(const std::string& text) {
    std::string all;
    for (const char c : text) {
        switch (c) {
        case '&':
            all += "&amp;";
            break;
        case '<':
            all += "&lt;";
            break;
        case '>':
            all += "&gt;";
            break;
        case '"':
            all += "&quot;";
            break;
        default:
            all += c;
        }
    }
    return all;
}

/// The same, and each line of the text is one of the page.
inline std::string escaped_lines(const std::string& text) {
    std::string all = escaped(text);
    for (std::size_t at = all.find('\n'); at != std::string::npos; at = all.find('\n', at)) {
        all.replace(at, 1, "<br>");
    }
    return all;
}

} // namespace vrid
