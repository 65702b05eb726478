#include <array>
#include <cstdint>
#include <string_view>

#include "io/toml/read_text.hpp"

// A scan in front of the TOML parser, whose answer to letters beyond ASCII in broken texts is
// undefined, and whose nesting of keys has no limit. The scan follows strings, comments, brackets
// and where a key or value may begin; it refuses only what the parser must not see.

namespace vrid {

namespace {

constexpr std::size_t deepest_nesting = 16;

enum class Part { plain, comment, string };
// What the grammar waits for: a key (or the rest of one), a value, or the end of this one.
enum class Expects { key, value, end };

struct Scan {
    std::string_view text;
    std::size_t at = 0;
    AsciiText ascii; // so far
    int line = 1, column = 1, ascii_column = 1;
    Part part = Part::plain;
    char quote = 0;       // of the string we are in
    bool triple = false;  // a multi-line string
    std::string open;     // brackets and braces not yet closed
    std::size_t dots = 0; // in the key at hand
    Expects expects = Expects::key;
    bool fresh = true; // the key or value expected has not begun
};

// Bytes of the UTF-8 character at the front; 0 if that is not valid UTF-8 or a control character.
std::size_t character_length(std::string_view rest) {
    const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(rest[i]); };
    const std::uint8_t first = byte(0);
    if (first < 0x80) {
        return 1;
    }
    const std::size_t length = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
    if (first < 0xc2 || first > 0xf4 || rest.size() < length) {
        return 0;
    }
    std::uint32_t code = first & (0xffU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xc0U) != 0x80U) {
            return 0;
        }
        code = (code << 6) | (byte(i) & 0x3fU);
    }
    constexpr std::array<std::uint32_t, 5> least{0, 0, 0xa0, 0x800, 0x10000};
    const bool surrogate = code >= 0xd800 && code <= 0xdfff;
    return code < least[length] || code > 0x10ffff || surrogate ? 0 : length;
}

std::size_t quotes_in_a_row(const Scan& scan) {
    std::size_t n = 0;
    while (n < 5 && scan.at + n < scan.text.size() && scan.text[scan.at + n] == scan.quote) {
        ++n;
    }
    return n;
}

void expect(Scan& scan, Expects what) {
    scan.expects = what;
    scan.fresh = true;
    scan.dots = 0;
}

void end_line(Scan& scan) {
    scan.part = Part::plain;
    if (scan.open.empty()) {
        expect(scan, Expects::key);
    }
}

// Something of a key or value that stands there begins.
void begin(Scan& scan) {
    if (scan.expects == Expects::value) {
        scan.expects = Expects::end;
    }
    scan.fresh = false;
}

// Bytes to take from here in a string; ends it where its closing quotes stand.
std::size_t in_string(Scan& scan, char c) {
    if (c == '\\' && scan.quote == '"' && scan.at + 1 < scan.text.size()) {
        return scan.text[scan.at + 1] == '"' || scan.text[scan.at + 1] == '\\' ? 2 : 1;
    }
    if (c == '\n' && !scan.triple) {
        end_line(scan); // the parser stops here
    }
    if (c == scan.quote) {
        const std::size_t n = scan.triple ? quotes_in_a_row(scan) : 1;
        if (!scan.triple || n >= 3) {
            scan.part = Part::plain;
        }
        return n;
    }
    return 1;
}

// Quotes where no key or value can begin, as in 1.5"x", open no string: the parser reads on
// through them in search of the end of the number.
std::size_t open_string(Scan& scan, char c) {
    const bool opens = scan.fresh && scan.expects != Expects::end;
    begin(scan);
    if (!opens) {
        return 1;
    }
    scan.part = Part::string;
    scan.quote = c;
    scan.triple = quotes_in_a_row(scan) >= 3;
    return scan.triple ? 3 : 1;
}

void open_bracket(Scan& scan, char c) {
    const bool header = c == '[' && scan.expects == Expects::key && scan.fresh;
    const bool value = scan.expects == Expects::value;
    scan.open += c;
    begin(scan);
    if (header || value) {
        expect(scan, header || c == '{' ? Expects::key : Expects::value);
    }
}

void close_bracket(Scan& scan) {
    if (!scan.open.empty()) {
        scan.open.pop_back();
    }
    scan.expects = Expects::end;
}

void separate(Scan& scan, char c) {
    if (c == ',') {
        const char in = scan.open.empty() ? ' ' : scan.open.back();
        expect(scan, in == '[' ? Expects::value : in == '{' ? Expects::key : Expects::end);
        return;
    }
    const bool key = scan.expects == Expects::key && !scan.fresh;
    if (c == '=') {
        expect(scan, key ? Expects::value : Expects::end);
    } else if (key) { // a dot
        ++scan.dots;
        scan.fresh = true;
    } else {
        begin(scan);
    }
}

// Bytes to take from here outside strings and comments.
std::size_t in_plain(Scan& scan, char c) {
    if (c == '"' || c == '\'') {
        return open_string(scan, c);
    }
    if (c == '\n') {
        end_line(scan);
    } else if (c == '#') {
        scan.part = Part::comment;
    } else if (c == '[' || c == '{') {
        open_bracket(scan, c);
    } else if (c == ']' || c == '}') {
        close_bracket(scan);
    } else if (c == ',' || c == '=' || c == '.') {
        separate(scan, c);
    } else if (c != ' ' && c != '\t' && c != '\r') {
        begin(scan);
    }
    return 1;
}

std::string byte_text(char c) {
    constexpr std::string_view digits = "0123456789abcdef";
    const auto byte = static_cast<std::uint8_t>(c);
    return {'0', 'x', digits[byte >> 4], digits[byte & 0xf]};
}

// What is wrong with the character at hand; empty if nothing.
std::string fault(const Scan& scan, char c) {
    const auto byte = static_cast<std::uint8_t>(c);
    const bool line_end = c == '\r' && scan.text.substr(scan.at).starts_with("\r\n");
    if ((byte < 0x20 && c != '\t' && c != '\n' && !line_end) || byte == 0x7f) {
        return "found the control character " + byte_text(c) + "; accepted: a text file in UTF-8";
    }
    if (byte >= 0x80 && character_length(scan.text.substr(scan.at)) == 0) {
        return "found the byte " + byte_text(c) +
               ", which is not UTF-8 text; accepted: a text "
               "file in UTF-8";
    }
    if (byte >= 0x80 && scan.part == Part::plain) {
        return "found a letter beyond ASCII; accepted: such letters only in quotes and comments";
    }
    return {};
}

[[noreturn]] void refuse(const Scan& scan, const std::string& file, const std::string& why) {
    throw InputError(file + ":" + std::to_string(scan.line) + ":" + std::to_string(scan.column),
                     why);
}

// Follows the grammar over the character at hand; tells how many bytes it takes.
std::size_t step(Scan& scan, char c) {
    const std::size_t bytes = character_length(scan.text.substr(scan.at));
    if (scan.part == Part::comment) {
        if (c == '\n') {
            end_line(scan);
        }
        return bytes;
    }
    if (bytes > 1) {
        return bytes;
    }
    return scan.part == Part::string ? in_string(scan, c) : in_plain(scan, c);
}

// Adds the piece (one character, or some quotes) to the ASCII text and moves line and columns on.
void spell(Scan& scan, std::string_view piece) {
    const bool beyond = static_cast<std::uint8_t>(piece[0]) >= 0x80;
    const bool spell_out = scan.part == Part::string && (beyond || piece[0] == '~');
    std::string ascii = beyond ? "?" : std::string(piece); // in a comment any letter will do
    if (spell_out) {
        ascii = spelled(piece);
        scan.ascii.widened.push_back(
            {scan.line, scan.ascii_column, static_cast<int>(ascii.size()) - 1});
    }
    scan.column += beyond ? 1 : static_cast<int>(piece.size());
    scan.ascii_column += static_cast<int>(ascii.size());
    scan.ascii.text += ascii;
    if (piece[0] == '\n') {
        ++scan.line;
        scan.column = scan.ascii_column = 1;
    }
}

} // namespace

AsciiText fit_for_toml(const std::string& text, const std::string& file) {
    Scan scan;
    scan.text = text;
    if (text.size() > largest_input_file) {
        refuse(scan, file, "the text is larger than 1 MiB; accepted: up to 1 MiB");
    }
    if (text.starts_with("\xef\xbb\xbf")) {
        scan.at = 3; // a byte order mark
    }
    while (scan.at < text.size()) {
        const char c = text[scan.at];
        if (const std::string wrong = fault(scan, c); !wrong.empty()) {
            refuse(scan, file, wrong);
        }
        const std::size_t bytes = step(scan, c);
        if (scan.open.size() > deepest_nesting || scan.dots > deepest_nesting) {
            refuse(scan, file,
                   "tables or keys are nested deeper than " + std::to_string(deepest_nesting));
        }
        spell(scan, scan.text.substr(scan.at, bytes));
        scan.at += bytes;
    }
    return std::move(scan.ascii);
}

} // namespace vrid
