#include "tests/fuzz/mutation.hpp"

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <vector>

namespace vrid::tests {

namespace {

using Random = std::mt19937;

struct Span {
    std::size_t from = 0, size = 0;
};

// The standard leaves distributions open; a remainder is the same with every library.
std::size_t pick(Random& random, std::size_t n) {
    return random() % n;
}

template <class List> const auto& one_of(const List& list, Random& random) {
    return list[pick(random, list.size())];
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_word(char c) {
    return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
}

// Numbers that stand by themselves: not the 4 of "mat4".
std::vector<Span> numbers_in(const std::string& text) {
    std::vector<Span> found;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (!is_digit(text[i]) || (i > 0 && (is_word(text[i - 1]) || text[i - 1] == '.'))) {
            continue;
        }
        const std::size_t from = i > 0 && text[i - 1] == '-' ? i - 1 : i;
        std::size_t end = i + 1;
        while (end < text.size() &&
               (is_digit(text[end]) || text[end] == '.' || text[end] == 'e' ||
                (text[end - 1] == 'e' && (text[end] == '-' || text[end] == '+')))) {
            ++end;
        }
        found.push_back({from, end - from});
        i = end - 1;
    }
    return found;
}

// Texts in double quotes on one line, without the quotes.
std::vector<Span> texts_in(const std::string& text) {
    std::vector<Span> found;
    for (std::size_t i = text.find('"'); i != std::string::npos; i = text.find('"', i)) {
        const std::size_t end = text.find_first_of("\"\n", i + 1);
        if (end == std::string::npos) {
            break;
        }
        if (text[end] == '"') {
            found.push_back({i + 1, end - i - 1});
        }
        i = end + 1;
    }
    return found;
}

// Pieces that end with (and include) the mark.
std::vector<Span> pieces(const std::string& text, std::string_view mark) {
    std::vector<Span> found;
    for (std::size_t from = 0; from < text.size();) {
        const std::size_t at = text.find(mark, from);
        const std::size_t end = at == std::string::npos ? text.size() : at + mark.size();
        found.push_back({from, end - from});
        from = end;
    }
    return found;
}

std::string number_text(double value) {
    std::array<char, 40> text{};
    const int digits = std::abs(value) < 1e6 && value == std::round(value) ? 6 : 17;
    const int size = std::snprintf(text.data(), text.size(), "%.*g", digits, value);
    return {text.data(), static_cast<std::size_t>(size)};
}

std::string other_number(double value, Random& random) {
    constexpr std::array factors{0.0, -1.0, 0.5,  2.0,  10.0, 1000.0, 1e-3,  1e-9,     1e6,
                                 1.1, 0.9,  0.99, 1.01, 0.97, 1e-15,  1e300, 1 + 1e-9, 1 - 1e-12};
    constexpr std::array moves{1.0,  -1.0, 0.5,  -0.1,  0.01,  1e-3,   -1e-3,
                               1e-5, 1e-7, 1e-9, -1e-9, 1e-10, -1e-12, 100.0};
    constexpr std::array<std::string_view, 16> odd{
        "0",    "-0.0", "1",   "2",    "1e-300", "4.9e-324", "1e308", "nan",
        "-inf", "5000", "0.1", "1e-9", "90",     "45",       "0.5",   "99999999999999"};
    switch (pick(random, 8)) {
    case 0:
        return std::string(one_of(odd, random));
    case 1:
        return number_text(std::round(value));
    case 2:
    case 3:
    case 4:
        return number_text(value + one_of(moves, random));
    default:
        return number_text(value * one_of(factors, random));
    }
}

void change_number(std::string& text, Random& random) {
    const std::vector<Span> numbers = numbers_in(text);
    if (numbers.empty()) {
        return;
    }
    const Span at = one_of(numbers, random);
    const double value = std::strtod(text.c_str() + at.from, nullptr);
    text.replace(at.from, at.size, other_number(value, random));
}

void copy_over(std::string& text, const std::vector<Span>& spans, Random& random) {
    if (!spans.empty()) {
        const Span from = one_of(spans, random);
        const Span to = one_of(spans, random);
        text.replace(to.from, to.size, text.substr(from.from, from.size));
    }
}

void copy_number(std::string& text, Random& random) {
    copy_over(text, numbers_in(text), random);
}

void copy_text(std::string& text, Random& random) {
    copy_over(text, texts_in(text), random);
}

void exchange_lines(std::string& text, Random& random) {
    copy_over(text, pieces(text, "\n"), random);
}

void leave_out(std::string& text, std::string_view mark, Random& random) {
    const std::vector<Span> all = pieces(text, mark);
    if (!all.empty()) {
        const Span piece = one_of(all, random);
        text.erase(piece.from, piece.size);
    }
}

void repeat(std::string& text, std::string_view mark, Random& random) {
    const std::vector<Span> all = pieces(text, mark);
    if (!all.empty()) {
        const Span piece = one_of(all, random);
        text.insert(one_of(all, random).from, text.substr(piece.from, piece.size));
    }
}

// A line, a table (up to an empty line) or an entry of a list.
std::string_view any_mark(Random& random) {
    constexpr std::array<std::string_view, 3> marks{"\n", "\n\n", ","};
    return one_of(marks, random);
}

void leave_out_piece(std::string& text, Random& random) {
    leave_out(text, any_mark(random), random);
}

void repeat_piece(std::string& text, Random& random) {
    repeat(text, any_mark(random), random);
}

void turn_over(std::string& text, Random& random) {
    const bool to_false = pick(random, 2) == 0;
    const std::string_view from = to_false ? "true" : "false";
    const std::size_t at = text.find(from, text.empty() ? 0 : pick(random, text.size()));
    if (at != std::string::npos) {
        text.replace(at, from.size(), to_false ? "false" : "true");
    }
}

void put_token(std::string& text, Random& random) {
    constexpr std::array<std::string_view, 20> tokens{
        "[",  "]",  "[[", "]]", "{", "}",  "=",    "\"",   "\"\"\"",   "\\u0000",
        "\\", "[]", "{}", ",",  "#", "\n", "true", "null", "\xc3\xa9", "../"};
    text.insert(pick(random, text.size() + 1), one_of(tokens, random));
}

void change_byte(std::string& text, Random& random) {
    if (!text.empty()) {
        text[pick(random, text.size())] = static_cast<char>(pick(random, 256));
    }
}

void cut_off(std::string& text, Random& random) {
    text.resize(pick(random, text.size() + 1));
}

void change_once(std::string& text, Random& random) {
    const std::size_t kind = pick(random, 64);
    using Change = void (*)(std::string&, Random&);
    constexpr std::array<Change, 16> often{
        change_number, change_number, change_number, change_number,   change_number,   copy_number,
        copy_number,   copy_number,   copy_text,     leave_out_piece, leave_out_piece, repeat_piece,
        repeat_piece,  turn_over,     change_number, change_number};
    switch (kind) {
    case 0:
        return put_token(text, random);
    case 1:
        return change_byte(text, random);
    case 2:
        return kind == pick(random, 4) ? cut_off(text, random) : exchange_lines(text, random);
    default:
        return one_of(often, random)(text, random);
    }
}

} // namespace

std::string mutated(std::string text, std::mt19937& random) {
    for (std::size_t changes = 1 + pick(random, 4); changes > 0; --changes) {
        change_once(text, random);
    }
    return text;
}

} // namespace vrid::tests
