#include "io/write/staged_files.hpp"

#include <cstdlib>
#include <fstream>
#include <iterator>

#include <sys/mount.h>
#include <unistd.h>

#include <catch2/catch.hpp>

#include "mesh/board/error.hpp"

using namespace vrid;
namespace fs = std::filesystem;

namespace {

/// A folder of its own, gone afterwards.
struct Folder {
    fs::path path;
    Folder() {
        std::string name = (fs::temp_directory_path() / "vrid-test-XXXXXX").string();
        path = mkdtemp(name.data());
    }
    ~Folder() { fs::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
};

std::string content(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

std::size_t entries(const fs::path& path) {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(path), fs::directory_iterator()));
}

} // namespace

TEST_CASE("files appear together when they are published, in a folder that is created") {
    const Folder folder;
    const fs::path target = folder.path / "a" / "b";
    StagedFiles files(target);
    files.add("one.txt", "1");
    files.add("two.txt", std::string("2\0\n", 3));
    CHECK_FALSE(fs::exists(target / "one.txt"));
    CHECK(files.names() == std::vector<std::string>{"one.txt", "two.txt"});
    files.publish();
    CHECK(content(target / "one.txt") == "1");
    CHECK(content(target / "two.txt") == std::string("2\0\n", 3));
    CHECK(entries(target) == 2);
}

TEST_CASE("what is not published leaves no trace and the earlier file as it was") {
    const Folder folder;
    write_file(folder.path / "one.txt", "old");
    {
        StagedFiles files(folder.path);
        files.add("one.txt", "new");
        CHECK(entries(folder.path) == 2);
    }
    CHECK(entries(folder.path) == 1);
    CHECK(content(folder.path / "one.txt") == "old");
}

TEST_CASE("a folder that cannot be made is an output error that names it") {
    const Folder folder;
    write_file(folder.path / "file", "x");
    CHECK_THROWS_AS(StagedFiles(folder.path / "file"), OutputError);
    CHECK_THROWS_WITH(StagedFiles(folder.path / "file" / "below"),
                      Catch::Contains((folder.path / "file" / "below").string()));
    CHECK_THROWS_AS(write_file("/proc/vrid/one.txt", "x"), OutputError);
}

TEST_CASE("a full disk is an output error and leaves neither a file nor a temporary") {
    const Folder folder;
    if (mount("none", folder.path.c_str(), "tmpfs", 0, "size=64k") != 0) {
        WARN("skipped: no permission to mount a small file system");
        return;
    }
    write_file(folder.path / "kept.txt", "kept");
    {
        StagedFiles files(folder.path);
        files.add("small.txt", "fits");
        CHECK_THROWS_AS(files.add("large.bin", std::string(1 << 20, 'x')), OutputError);
    }
    CHECK(entries(folder.path) == 1);
    CHECK(content(folder.path / "kept.txt") == "kept");
    umount(folder.path.c_str());
}

TEST_CASE("what a verb wrote before and has no more is removed; other files are not touched") {
    const Folder folder;
    const auto publish = [&](const std::string& verb, const std::vector<std::string>& names) {
        StagedFiles files(folder.path);
        for (const std::string& name : names) {
            files.add(name, verb);
        }
        files.publish_as(verb);
    };
    write_file(folder.path / "mine.vtu", "foreign");
    publish("solve", {"result.json", "nose-flex.vtu", "shared.json", "mine.vtu.bak"});
    publish("edge", {"edge.json", "shared.json"});
    CHECK(content(folder.path / "nose-flex.vtu") == "solve");
    publish("solve", {"result.json"});
    CHECK_FALSE(fs::exists(folder.path / "nose-flex.vtu"));
    CHECK_FALSE(fs::exists(folder.path / "mine.vtu.bak"));
    CHECK(content(folder.path / "shared.json") == "edge"); // the other verb has it still
    CHECK(content(folder.path / "mine.vtu") == "foreign");
    // a list that leads out of the folder, or is damaged, removes nothing
    const fs::path outside = folder.path / "outside.txt";
    write_file(outside, "x");
    const fs::path inside = folder.path / "in";
    fs::create_directories(inside);
    write_file(inside / "vrid-files.json",
               "{\"format\": 1, \"written\": {\"solve\": [\"../outside.txt\", \"..\", 7]}}");
    StagedFiles files(inside);
    files.add("a", "1");
    files.publish_as("solve");
    CHECK(fs::exists(outside));
}
