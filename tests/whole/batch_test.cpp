#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <thread>

#include <fcntl.h>
#include <sys/file.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

const std::string boards = std::string(source_dir) + "/examples/";

std::string suite_text(const std::string& more = "") {
    return "format = 1\nname = \"test\"\nboards = [\"" + boards + "coupon-tr*/board.toml\", \"" +
           boards + "coupon-s*/board.toml\"]\n" + // two of them
           "cases = [\"all\"]\n" + more;
}

const std::string two_variants = "[[variant]]\nname = \"softer\"\n"
                                 "set = { \"mass_only.resin_gsm\" = 100 }\n";

std::string summary(const fs::path& folder) {
    return content(folder / "summary.csv") + content(folder / "summary.json");
}

fs::path first_job(const fs::path& folder) {
    return fs::directory_iterator(folder / "jobs")->path();
}

/// A suite of all *.toml beside it.
std::string of_its_folder(const TemporaryFolder& folder) {
    return folder.file("all.suite", "format = 1\nname = \"test\"\nboards = [\"*.toml\"]\n"
                                    "cases = [\"full-twist\"]\n");
}

/// Kills a batch at a seeded random moment, runs it again; the summary must be as undisturbed.
void kill_and_resume(int trials) {
    const TemporaryFolder folder;
    const std::string suite = folder.file("suite.toml", suite_text(two_variants));
    const auto start = std::chrono::steady_clock::now();
    REQUIRE(run_program({"batch", suite, "--out", (folder.path() / "whole").string()}).status == 0);
    const std::chrono::duration<double> undisturbed = std::chrono::steady_clock::now() - start;
    const std::string wanted = summary(folder.path() / "whole");
    std::mt19937 random(20240131);
    double span = undisturbed.count();
    int killed = 0;
    for (int trial = 0; killed < trials && trial < 4 * trials; ++trial) {
        const std::string out = (folder.path() / "killed").string();
        const double seconds = std::uniform_real_distribution<double>(0, span)(random);
        const Run first = run_and_signal({"batch", suite, "--out", out}, SIGKILL, seconds);
        const bool in_time = first.status == -SIGKILL;
        killed += in_time ? 1 : 0;
        span *= in_time ? 1 : 0.8; // it had ended before: other load has changed its pace
        const Run again = run_program({"batch", suite, "--out", out});
        CAPTURE(trial, seconds, again.err);
        REQUIRE(again.status == 0);
        REQUIRE(summary(out) == wanted);
        fs::remove_all(out);
    }
    CHECK(killed == trials);
}

} // namespace

// ctest label kills; VRID_KILLS=200 for the long run.
TEST_CASE("a batch killed at random moments and run again ends with the same summary", "[kills]") {
    const char* wanted = std::getenv("VRID_KILLS");
    kill_and_resume(wanted == nullptr ? 15 : std::stoi(wanted));
}

TEST_CASE("nothing depends on the clock: files of the future and of the past are as any others") {
    const TemporaryFolder folder;
    const std::string drawn = content(boards + "coupon-triax/board.toml");
    const std::string board = folder.file("board.toml", drawn);
    const std::string suite = folder.file(
        "suite.toml",
        "format = 1\nname = \"test\"\nboards = [\"board.toml\"]\ncases = [\"centre-flex\"]\n");
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program({"batch", suite, "--out", out}).status == 0);
    const std::string wanted = summary(out);
    for (const int years : {-40, 10}) { // a clock that was wrong when the files were written
        const auto then = fs::file_time_type::clock::now() + std::chrono::hours(24 * 365 * years);
        for (const auto& entry : fs::recursive_directory_iterator(folder.path())) {
            fs::last_write_time(entry.path(), then);
        }
        const Run again = run_program({"batch", suite, "--out", out});
        CHECK_THAT(again.err, Contains("1 finished before, 0 solved now"));
        CHECK(summary(out) == wanted);
    }
    // A changed board is run though its file says that it is older than its result.
    std::string wider = drawn;
    const std::size_t at = wider.find("[120, 25]");
    REQUIRE(at != std::string::npos);
    std::ofstream(board) << wider.replace(at, 9, "[120, 26]");
    fs::last_write_time(board,
                        fs::file_time_type::clock::now() - std::chrono::hours(24 * 365 * 40));
    CHECK_THAT(run_program({"batch", suite, "--out", out}).err, !Contains("finished before"));
    CHECK(summary(out) != wanted);
}

TEST_CASE("a finished job is not run again, a damaged one is, and the summary stays the same") {
    const TemporaryFolder folder;
    const std::string suite = folder.file("suite.toml", suite_text());
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program({"batch", suite, "--out", out}).status == 0);
    const std::string wanted = summary(out);
    const fs::path result = first_job(out) / "result.json";
    const auto time = fs::last_write_time(result);
    CHECK_THAT(run_program({"batch", suite, "--out", out}).err, Contains("2 finished before"));
    CHECK(fs::last_write_time(result) == time);
    for (const char* name : {"result.json", "stations.csv", "job.json"}) {
        std::ofstream(first_job(out) / name, std::ios::app) << "}";
        const Run run = run_program({"batch", suite, "--out", out});
        CAPTURE(name, run.err);
        CHECK(run.status == 0);
        CHECK_THAT(run.err, Contains("damaged"));
        CHECK(summary(out) == wanted);
    }
}

TEST_CASE("two shards and a collect equal one run byte for byte") {
    const TemporaryFolder folder;
    const std::string suite = folder.file("suite.toml", suite_text(two_variants));
    const std::string one = (folder.path() / "one").string();
    const std::string two = (folder.path() / "two").string();
    REQUIRE(run_program({"batch", suite, "--out", one}).status == 0);
    REQUIRE(run_program({"batch", suite, "--out", two, "--shard", "2/2"}).status == 0);
    CHECK_THAT(run_program({"batch", "--collect", two}).out, Contains("not run"));
    REQUIRE(run_program({"batch", suite, "--out", two, "--shard", "1/2"}).status == 0);
    REQUIRE(run_program({"batch", "--collect", two}).status == 0);
    CHECK(summary(one) == summary(two));
}

TEST_CASE("a second batch in the folder says so and stops; a dead one's lock is taken over") {
    const TemporaryFolder folder;
    const std::string suite = folder.file("suite.toml", suite_text());
    const fs::path out = folder.path() / "out";
    fs::create_directory(out);
    const int lock = open((out / "batch.lock").c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    REQUIRE(flock(lock, LOCK_EX) == 0);
    const Run refused = run_program({"batch", suite, "--out", out.string()});
    CHECK(refused.status == 4);
    CHECK_THAT(refused.err, Contains("another batch"));
    CHECK_FALSE(fs::exists(out / "batch.json"));
    close(lock);
    std::ofstream(out / "batch.lock") << "\x01 damaged \xff"; // left by a dead machine
    CHECK(run_program({"batch", suite, "--out", out.string()}).status == 0);
}

TEST_CASE("a lock file that is a link is refused, and what it leads to stays as it is") {
    const TemporaryFolder folder;
    const std::string suite = folder.file("suite.toml", suite_text());
    const std::string precious = folder.file("precious.txt", "mine");
    const fs::path out = folder.path() / "out";
    fs::create_directory(out);
    fs::create_symlink(precious, out / "batch.lock");
    const Run run = run_program({"batch", suite, "--out", out.string()});
    CHECK(run.status == 4);
    CHECK_THAT(run.err, Contains("batch.lock") && Contains("symbolic link"));
    CHECK(content(precious) == "mine");
}

TEST_CASE("one bad board is one failed row and the others run") {
    const TemporaryFolder folder;
    std::ofstream(folder.path() / "bad.toml") << "format = 1\nname = 3\n";
    const std::string suite = folder.file(
        "suite.toml",
        "format = 1\nname = \"test\"\ncases = [\"centre-flex\"]\nboards = [\"bad.toml\", \"" +
            boards + "coupon-sandwich/board.toml\"]\n");
    const std::string out = (folder.path() / "out").string();
    const Run run = run_program({"batch", suite, "--out", out});
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("bad.toml:2:8") && Contains("1 of 2 done"));
    CHECK_THAT(content(out + "/report.html"), Contains("failed:") && Contains("coupon, sandwich"));
}

TEST_CASE("a crash in the middle of a job is one failed row, and the next run does that job") {
    const TemporaryFolder folder;
    const std::string suite = folder.file("suite.toml", suite_text(two_variants));
    const std::string out = (folder.path() / "out").string();
    const Run run = run_and({"batch", suite, "--out", out, "--jobs", "1"}, [](int process) {
        const std::string id = std::to_string(process);
        int worker = 0;
        for (int i = 0; worker == 0 && i < 2000; ++i) {
            std::ifstream("/proc/" + id + "/task/" + id + "/children") >> worker;
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        }
        REQUIRE(worker != 0);
        kill(worker, SIGSEGV);
    });
    CAPTURE(run.out, run.err);
    CHECK(run.status == 1);
    CHECK_THAT(run.out, Contains("signal 11") && Contains("3 of 4 done"));
    const Run again = run_program({"batch", suite, "--out", out});
    CHECK(again.status == 0);
    CHECK_THAT(again.err, Contains("3 finished before, 1 solved now"));
}

TEST_CASE("a full disk and a read-only folder are exit status 4, and nothing finished is lost") {
    const TemporaryFolder folder;
    const std::string suite = folder.file("suite.toml", suite_text());
    const fs::path disk = folder.path() / "disk";
    fs::create_directory(disk);
    if (mount("none", disk.c_str(), "tmpfs", 0, "size=24k") != 0) {
        WARN("skipped: this user cannot mount a small disk");
        return;
    }
    CHECK(run_program({"batch", suite, "--out", disk.string()}).status == 4);
    mount("none", disk.c_str(), "tmpfs", MS_REMOUNT, "size=4m");
    CHECK(run_program({"batch", suite, "--out", disk.string()}).status == 0);
    mount("none", disk.c_str(), "tmpfs", MS_REMOUNT | MS_RDONLY, "size=4m");
    const Run run = run_program({"batch", suite, "--out", disk.string()});
    CHECK(run.status == 4);
    CHECK_THAT(run.err, Contains(disk.string()));
    umount(disk.c_str());
}

TEST_CASE("a core thickness change of 0.3 % is drift on every twist case, another mesh is none") {
    const TemporaryFolder folder;
    std::string board = content(boards + "nh-161-lattenzaun/board.toml");
    const auto limits = board.find("[limits]");
    board = board.substr(0, limits);
    std::ofstream(folder.path() / "board.toml") << board;
    const std::string head =
        "format = 1\nname = \"test\"\ncases = [\"all\"]\nboards = [\"board.toml\"]\n";
    const std::string plain = folder.file("plain.toml", head);
    const std::string against =
        folder.file("against.toml", head + "[drift]\nbaseline = \"good\"\npercent = 0\n");
    const std::string good = (folder.path() / "good").string();
    REQUIRE(run_program({"batch", plain, "--out", good}).status == 0);
    const auto changes = [&](const std::vector<std::string>& more) {
        std::vector<std::string> words{"batch", against, "--out", (folder.path() / "now").string()};
        words.insert(words.end(), more.begin(), more.end());
        const Run run = run_program(words);
        CAPTURE(run.out, run.err);
        return Json::parse(content(folder.path() / "now" / "summary.json"))["rows"][0]["changes"];
    };
    const Json other_mesh = changes({"--size-mm", "60"});
    for (const auto& [name, change] : other_mesh.items()) {
        CAPTURE(name, change.dump());
        CHECK_FALSE(change["drift"].get<bool>());
    }
    // the thicker board stands under the same file name and variant in a baseline of its own
    Json summary = Json::parse(content(fs::path(good) / "summary.json"));
    const std::string scaled = folder.file(
        "scaled.toml",
        head + "[[variant]]\nname = \"thicker\"\nset = { \"core.thickness_scale\" = 1.003 }\n");
    const std::string thick = (folder.path() / "thick").string();
    REQUIRE(run_program({"batch", scaled, "--out", thick}).status == 0);
    const Json thicker = Json::parse(content(thick + "/summary.json"))["rows"][1];
    summary["rows"][0]["numbers"] = thicker["numbers"];
    std::ofstream(fs::path(good) / "summary.json") << summary.dump();
    const Json other_core = changes({});
    int twists = 0;
    for (const auto& [name, change] : other_core.items()) {
        if (name.find("twist") != std::string::npos) {
            CAPTURE(name, change.dump());
            CHECK(change["drift"].get<bool>());
            ++twists;
        }
    }
    CHECK(twists == 4);
}

TEST_CASE("report makes a page of a single solve, and says what it needs") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "out").string();
    REQUIRE(run_program({"solve", "examples/coupon-sandwich/board.toml", "--out", out}).status ==
            0);
    REQUIRE(run_program({"report", out}).status == 0);
    const std::string page = content(out + "/report.html");
    CHECK_THAT(page, Contains("no proof of strength or safety") && Contains("<svg"));
    CHECK(page.find("http://") == page.find("http://www.w3.org")); // a name, not an address
    CHECK(page.find("https://") == std::string::npos);
    CHECK(run_program({"report", folder.path().string()}).status == 2);
}

TEST_CASE("what only a variant is warned of is told with its name") {
    const TemporaryFolder folder;
    const std::string suite = of_its_folder(folder);
    std::ofstream(suite, std::ios::app)
        << "[[variant]]\nname = \"a wall\"\nset = { \"core.thickness_scale\" = 4 }\n";
    fs::copy_file(boards + "nh-157-querwind/board.toml", folder.path() / "board.toml");
    const std::string out = (folder.path() / "out").string();
    CHECK_THAT(run_program({"batch", suite, "--out", out}).err,
               Contains("the board's thickness is ") && Contains("(variant 'a wall')\n"));
}

TEST_CASE("a batch warns of what fits its pattern by name and is no file") {
    const TemporaryFolder folder;
    const std::string suite = of_its_folder(folder);
    fs::copy_file(boards + "coupon-torsion/board.toml", folder.path() / "strip.toml");
    const std::string out = (folder.path() / "out").string();
    CHECK_THAT(run_program({"batch", suite, "--out", out}).err, !Contains("warning"));
    fs::create_directory(folder.path() / "folder.toml");
    REQUIRE(mkfifo((folder.path() / "pipe.toml").c_str(), 0600) == 0);
    const Run run = run_program({"batch", suite, "--out", out});
    CAPTURE(run.err);
    CHECK(run.status == 0);
    for (const char* name : {"folder.toml", "pipe.toml"}) {
        CHECK_THAT(run.err, Contains("all.suite:3:10: warning: boards: '" +
                                     (folder.path() / name).string() + "' fits") &&
                                Contains("is left out"));
    }
}
