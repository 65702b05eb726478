// Which files a suite's pattern means, on a folder made for it.
#include <filesystem>

#include <catch2/catch.hpp>

#include "io/batch/suite.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

namespace fs = std::filesystem;

class Boards : public TestFolder {
  public:
    Boards() : TestFolder("matching") {
        for (const char* name : {"a.toml", "b.toml", "bb.toml", "notes.txt", ".hidden.toml",
                                 "one/a.toml", "one/two/a.toml", "one/two/c.toml", ".git/a.toml"}) {
            fs::create_directories((fs::path(path()) / name).parent_path());
            (void)write(name, "");
        }
    }
    /// What fits, without the folder.
    [[nodiscard]] std::vector<std::string> fitting(const std::string& pattern) const {
        std::vector<std::string> all;
        for (const std::string& file : matching_files(pattern, path())) {
            REQUIRE(file.starts_with(path() + "/"));
            all.push_back(file.substr(path().size() + 1));
        }
        return all;
    }
};

using Files = std::vector<std::string>;

} // namespace

TEST_CASE("a pattern's star is any letters, its question mark one, and neither crosses a folder") {
    const Boards boards;
    CHECK(boards.fitting("*.toml") == Files{"a.toml", "b.toml", "bb.toml"});
    CHECK(boards.fitting("?.toml") == Files{"a.toml", "b.toml"});
    CHECK(boards.fitting("b*.toml") == Files{"b.toml", "bb.toml"});
    CHECK(boards.fitting("*/*.toml") == Files{"one/a.toml"});
    CHECK(boards.fitting("one/t*/?.toml") == Files{"one/two/a.toml", "one/two/c.toml"});
    CHECK(boards.fitting("a.toml") == Files{"a.toml"});
    CHECK(boards.fitting("none.toml").empty());
    CHECK(boards.fitting("one").empty()); // a folder is no board
    CHECK(boards.fitting("").empty());
}

TEST_CASE("two stars are any folders, also none, but none that is hidden") {
    const Boards boards;
    CHECK(boards.fitting("**/a.toml") == Files{"a.toml", "one/a.toml", "one/two/a.toml"});
    CHECK(boards.fitting("one/**/c.toml") == Files{"one/two/c.toml"});
    CHECK(boards.fitting("**/one/**/a.toml") == Files{"one/a.toml", "one/two/a.toml"});
    CHECK(boards.fitting(".*.toml") == Files{".hidden.toml"});
    CHECK(boards.fitting(".git/*.toml") == Files{".git/a.toml"});
}

TEST_CASE("a pattern goes up and back, or starts at the root; a loop of links ends") {
    const Boards boards;
    CHECK(boards.fitting("one/../a.toml") == Files{"a.toml"});
    CHECK(boards.fitting("one/../one/./a.toml") == Files{"one/a.toml"});
    CHECK(matching_files(boards.path() + "/b*.toml", "/nowhere") ==
          Files{boards.path() + "/b.toml", boards.path() + "/bb.toml"});
    fs::create_directory_symlink(boards.path(), fs::path(boards.path()) / "one/loop");
    CHECK(boards.fitting("**/c.toml") == Files{"one/two/c.toml"});
}
