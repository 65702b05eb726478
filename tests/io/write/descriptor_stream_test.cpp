#include "io/write/descriptor_stream.hpp"

#include <cerrno>
#include <cstdio>

#include <fcntl.h>
#include <unistd.h>

#include <catch2/catch.hpp>

using namespace vrid;

TEST_CASE("control characters become escapes, letters of all languages stay") {
    CHECK(without_controls("\x1b[2J\r\b") == "\\u001b[2J\\u000d\\u0008");
    CHECK(without_controls("\x7f\u0085\u009b") == "\\u007f\\u0085\\u009b");
    CHECK(without_controls("a\tb\n\u00e4\u00a0\u2026") == "a\tb\n\u00e4\u00a0\u2026");
}

TEST_CASE("the first failure's reason is kept to the end, an escape is not cut between writes") {
    DescriptorStream full(open("/dev/full", O_WRONLY | O_CLOEXEC));
    full << std::string(100000, 'x') << std::flush;
    errno = 0;
    full << "more";
    CHECK(full.finish() == ENOSPC);

    std::FILE* const file = std::tmpfile();
    DescriptorStream stream(fileno(file));
    stream << std::string(70000, 'x') << "\xc2"
           << "\x85" << 1.5;
    CHECK(stream.finish() == 0);
    std::rewind(file);
    std::string text(100000, ' ');
    text.resize(std::fread(text.data(), 1, text.size(), file));
    CHECK(text == std::string(70000, 'x') + "\\u0085" + "1.5");
    std::fclose(file);
}
