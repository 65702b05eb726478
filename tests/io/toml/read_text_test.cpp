// Files as they come: whole, or a message with the name.
#include "io/toml/read_text.hpp"

#include <filesystem>

#include <catch2/catch.hpp>
#include <sys/stat.h>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

TEST_CASE("a file's text comes byte by byte, up to the largest size and not one more") {
    const TestFolder folder("read-text");
    const std::string odd("a\0b\r\n\xFF", 6);
    CHECK(read_text(folder.write("odd", odd)) == odd);
    CHECK(read_text(folder.write("empty", "")).empty());
    const std::string path = folder.write("large", std::string(largest_input_file, 'x'));
    CHECK(read_text(path).size() == largest_input_file);
    (void)folder.write("large", std::string(largest_input_file + 1, 'x'));
    CHECK(complaint_of([&] { (void)read_text(path); }) ==
          path + ": is larger than 1 MiB; an input file of up to 1 MiB is accepted");
    CHECK(read_text(path, "", 3 * largest_input_file).size() == largest_input_file + 1);
}

TEST_CASE("what is no file is told for what it is, at the place that named it") {
    const TestFolder folder("no-text");
    const auto complaint = [](const std::string& path, const std::string& place = "") {
        return complaint_of([&] { (void)read_text(path, place); });
    };
    const std::string none = folder.path() + "/none";
    CHECK(complaint(none) == none + ": no such file");
    CHECK(complaint(none, "board.toml:3:1") == "board.toml:3:1: '" + none + "': no such file");
    CHECK(complaint(folder.path()) == folder.path() + ": is a folder; a file is accepted");
    const std::string pipe = folder.path() + "/pipe";
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    CHECK(complaint(pipe) == pipe + ": is not a regular file"); // and does not wait for a writer
    CHECK(complaint("/dev/zero") == "/dev/zero: is not a regular file");
    const std::string loop = folder.path() + "/loop";
    std::filesystem::create_symlink(loop, loop);
    CHECK(complaint(loop).starts_with(loop + ": cannot be read: "));
}
