#pragma once

#include <ostream>
#include <streambuf>
#include <string>

namespace vrid {

/// Text without control characters other than a new line and a tab: the others are written as
/// \u001b, so that no name in a file commands a terminal. Inside JSON the escape means the same
/// character. UTF-8 in, UTF-8 out.
std::string without_controls(const std::string& text);

/// A stream to an open file descriptor, for people: without_controls of what it is given. It keeps
/// the reason of the first write that failed, however much later somebody asks.
class DescriptorStream : private std::streambuf, public std::ostream {
  public:
    explicit DescriptorStream(int descriptor) : std::ostream(this), descriptor_(descriptor) {}
    ~DescriptorStream() override;
    DescriptorStream(const DescriptorStream&) = delete;
    DescriptorStream& operator=(const DescriptorStream&) = delete;

    /// Writes out what is held back; errno of the first failure, 0: there was none.
    int finish();

  private:
    std::streambuf::int_type overflow(std::streambuf::int_type letter) override;
    std::streamsize xsputn(const char* text, std::streamsize size) override;
    int sync() override;

    int descriptor_;
    int error_ = 0;
    std::string held_; ///< not yet written
};

/// Writes all bytes. Returns errno, 0: done.
int write_all(int descriptor, std::string_view bytes);

} // namespace vrid
