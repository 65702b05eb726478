#include "io/write/descriptor_stream.hpp"

#include <array>
#include <cerrno>
#include <cstdio>

#include <unistd.h>

namespace vrid {
namespace {

constexpr std::size_t most_held = 1 << 16;
constexpr unsigned char delete_character = 0x7F;
constexpr unsigned char leads_latin = 0xC2; // of U+0080 to U+00BF in UTF-8, the value follows it
constexpr unsigned char first_high_control = 0x80;
constexpr unsigned char last_high_control = 0x9F;

std::string escape_of(unsigned char character) {
    std::array<char, 8> text{};
    std::snprintf(text.data(), text.size(), "\\u%04x", static_cast<unsigned>(character));
    return text.data();
}

} // namespace

std::string without_controls(const std::string& text) {
    std::string all;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto one = static_cast<unsigned char>(text[i]);
        const auto next = static_cast<unsigned char>(i + 1 < text.size() ? text[i + 1] : ' ');
        if (one == leads_latin && next >= first_high_control && next <= last_high_control) {
            all += escape_of(next);
            ++i;
        } else if ((one < ' ' && one != '\n' && one != '\t') || one == delete_character) {
            all += escape_of(one);
        } else {
            all += text[i];
        }
    }
    return all;
}

int write_all(int descriptor, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t done = ::write(descriptor, bytes.data(), bytes.size());
        if (done < 0 && errno != EINTR) {
            return errno;
        }
        bytes.remove_prefix(done < 0 ? 0 : static_cast<std::size_t>(done));
    }
    return 0;
}

DescriptorStream::~DescriptorStream() {
    finish();
}

int DescriptorStream::finish() {
    const std::string text = without_controls(held_);
    held_.clear();
    error_ = error_ != 0 ? error_ : write_all(descriptor_, text);
    return error_;
}

std::streambuf::int_type DescriptorStream::overflow(std::streambuf::int_type letter) {
    if (!std::streambuf::traits_type::eq_int_type(letter, std::streambuf::traits_type::eof())) {
        held_ += std::streambuf::traits_type::to_char_type(letter);
    }
    return std::streambuf::traits_type::not_eof(letter);
}

std::streamsize DescriptorStream::xsputn(const char* text, std::streamsize size) {
    held_.append(text, static_cast<std::size_t>(size));
    // a letter of two bytes may come in two pieces: it is not cut
    const bool cut = !held_.empty() && static_cast<unsigned char>(held_.back()) == leads_latin;
    return (held_.size() > most_held && !cut && finish() != 0) ? 0 : size;
}

int DescriptorStream::sync() {
    return finish() == 0 ? 0 : -1;
}

} // namespace vrid
