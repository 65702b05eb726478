// Who may work in a folder beside whom.
#include "io/batch/folder_lock.hpp"

#include <filesystem>
#include <fstream>

#include <catch2/catch.hpp>
#include <unistd.h>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

std::string refusal_of(const std::string& file, bool shared) {
    try {
        const FolderLock second(file, shared);
    } catch (const OutputError& error) {
        return error.what();
    }
    return "";
}

std::string content_of(const std::string& file) {
    std::ifstream in(file);
    return {std::istreambuf_iterator<char>(in), {}};
}

} // namespace

TEST_CASE("a lock keeps everyone out and names its process, until it ends") {
    const TestFolder folder("lock");
    const std::string file = folder.path() + "/batch.lock";
    {
        const FolderLock lock(file, false);
        const std::string process = " " + std::to_string(::getpid()) + " ";
        CHECK_THAT(content_of(file), Contains(process));
        for (const bool shared : {false, true}) {
            const std::string refused = refusal_of(file, shared);
            CHECK_THAT(refused, Contains(folder.path()));
            CHECK_THAT(refused, Contains("another batch (process" + process + "on "));
            CHECK_THAT(refused, Contains("remove batch.lock"));
        }
    }
    CHECK(refusal_of(file, false).empty());
    CHECK(std::filesystem::exists(file));
}

TEST_CASE("shards share a folder with each other and with nobody else") {
    const TestFolder folder("shared-lock");
    const std::string file = folder.path() + "/batch.lock";
    const FolderLock first(file, true);
    const FolderLock second(file, true);
    CHECK_THAT(refusal_of(file, false), Contains("another batch is working in this folder"));
    CHECK(content_of(file).empty()); // of several holders none is named
}

TEST_CASE("a lock file that was left behind, or is damaged, stands in nobody's way; a link does") {
    const TestFolder folder("stale-lock");
    for (const char* left :
         {"somewhere 1 12345\n", "no number", "", "\xFF\xFE 99999999999999999999"}) {
        const std::string file = folder.write("batch.lock", left);
        CHECK(refusal_of(file, false).empty());
        CHECK_THAT(content_of(file), Contains(" " + std::to_string(::getpid()) + " "));
    }
    const std::string others = folder.write("others.txt", "precious");
    const std::string link = folder.path() + "/linked.lock";
    std::filesystem::create_symlink(others, link);
    CHECK_THAT(refusal_of(link, false), Contains("symbolic link"));
    CHECK(content_of(others) == "precious");
    CHECK_THAT(refusal_of(folder.path() + "/none/batch.lock", false),
               Contains("cannot be written"));
}
