// What a sitting answers, against what solve computes of the same files.
#include "io/live/sitting.hpp"

#include <algorithm>
#include <cmath>

#include <catch2/catch.hpp>

#include "io/write/solved_board.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

std::string plank(const std::string& thickness) {
    return "format = 1\nname = \"plank\"\n[planform]\nrectangle_mm = [300, 40]\n"
           "running_length_mm = 240\n[core]\ninterpolation = \"linear\"\n"
           "thickness_mm = [[-150, " +
           thickness +
           "], [150, 7.0]] # kept\n"
           "strips = [ { material = \"poplar\", width_mm = 12 } ]\n[[layer]]\nname = \"core\"\n"
           "core = true\n[limits]\n\"centre-flex\" = { max = 1 }\n\"full-twist\" = { min = 1e-3 "
           "}\n";
}

struct Plank {
    TemporaryFolder folder;
    std::string file = folder.file("board.toml", plank("7.0"));
    Sitting sitting{file, {}};
    std::string revision = sitting.opened()["revision"];
};

/// Numbers of a file by name, as vrid solve has them.
std::vector<NamedQuantity> solved_numbers(const std::string& file) {
    SolvedBoard solved;
    solved.board = read_board(file, load_material_library());
    solved.mass = board_mass(solved.board);
    solved.study = run_study(solved.board, {});
    return numbers_of(solved);
}

const NamedQuantity& named(const std::vector<NamedQuantity>& numbers, const std::string& name) {
    const auto found = std::ranges::find(numbers, name, &NamedQuantity::name);
    REQUIRE(found != numbers.end());
    return *found;
}

// Every number of a solve stands in the page's answer, printed alike.
void check_as_printed(const Json& answer, const std::vector<NamedQuantity>& numbers) {
    std::size_t compared = 0;
    for (const Json& one : answer["numbers"]) {
        const std::string name = one["name"];
        const auto found = std::ranges::find(numbers, name, &NamedQuantity::name);
        if (found == numbers.end()) {
            continue; // the balance point, say: solve prints none
        }
        ++compared;
        const BenchQuantity bench = to_bench(found->quantity);
        CAPTURE(name);
        if (name != "mass") { // a page has it without its bar
            CHECK(one["shown"] == rounded(bench.value, bench.error).value);
        }
        CHECK(one["unit"] == bench.unit);
        CHECK(one["value"].get<double>() == Approx(bench.value).epsilon(1e-8));
    }
    CHECK(compared == numbers.size());
}

} // namespace

TEST_CASE("a sitting's numbers of the file as opened, and of another file, are what solve prints") {
    Plank of;
    check_as_printed(of.sitting.solved(of.revision, {}, "page", false), solved_numbers(of.file));
    const std::string thick = of.folder.file("thick.toml", plank("7.6"));
    const Json other = of.sitting.other("thick.toml", "page");
    CHECK(other["name"] == "plank");
    check_as_printed(other, solved_numbers(thick));
}

TEST_CASE("a sitting's changed board has the numbers of the file with that change, within their "
          "bars, and slopes that lead there") {
    Plank of;
    const std::vector<Change> change{{"core.thickness_mm[0]", 7.1, ""}};
    const auto exact = solved_numbers(of.folder.file("thick.toml", plank("7.1")));
    const Json before = of.sitting.solved(of.revision, {}, "page", true);
    const Json after = of.sitting.solved(of.revision, change, "page", false);
    REQUIRE(before["numbers"].size() == after["numbers"].size());
    const auto& paths = before["paths"];
    const auto at = std::find(paths.begin(), paths.end(), "core.thickness_mm[0]") - paths.begin();
    for (std::size_t i = 0; i < after["numbers"].size(); ++i) {
        const Json& one = after["numbers"][i];
        const std::string name = one["name"];
        if (name != "centre-flex" && name != "full-twist" && name != "mass") {
            continue;
        }
        CAPTURE(name);
        const BenchQuantity bench = to_bench(named(exact, name).quantity);
        const double value = one["value"];
        CHECK(std::abs(value - bench.value) <= bench.error + 1e-6 * bench.value);
        const double was = before["numbers"][i]["value"];
        const double slope = before["numbers"][i]["slopes"][static_cast<std::size_t>(at)];
        CHECK(value != Approx(was).epsilon(1e-4));
        CHECK(was + 0.1 * slope == Approx(value).epsilon(2e-4)); // 0.1 mm: nearly linear
        if (name != "mass") {
            CHECK(one["limit"] == (name == "centre-flex" ? "outside" : "within"));
        }
    }
}

TEST_CASE("a sitting writes the file itself or a new one beside it, never by an empty name") {
    Plank of;
    const std::vector<Change> change{{"core.thickness_mm[0]", 7.6, ""}};
    CHECK_THROWS_WITH(of.sitting.write(of.revision, change, ""),
                      Contains("found \"\"; accepted: a name that ends with .toml"));
    CHECK(content(of.file) == plank("7.0"));
    CHECK(of.sitting.write(of.revision, change, "new.toml")["written"] == "new.toml");
    CHECK(content((of.folder.path() / "new.toml").string()) == plank("7.6"));
    CHECK(content(of.file) == plank("7.0"));
    CHECK_THROWS_WITH(of.sitting.write(of.revision, change, "new.toml"), Contains("exists"));
    const Json done = of.sitting.write(of.revision, change, std::nullopt);
    CHECK(content(of.file) == plank("7.6"));
    CHECK(done["revision"] == of.sitting.revision_now());
    CHECK_THROWS_AS(of.sitting.write(of.revision, change, std::nullopt), FileChanged);
}

TEST_CASE("a sitting refuses what it does not know in words, and forgets all but the last texts") {
    Plank of;
    CHECK_THROWS_WITH(of.sitting.over(of.revision, {}, "colour centre-flex", "page"),
                      Contains("accepted: deflection CASE, twist CASE, sanding NUMBER"));
    CHECK_THROWS_WITH(of.sitting.drawn(of.revision, {{"core.thickness_mm[0]", -1.0, ""}}, 0),
                      Contains("core.thickness_mm"));
    CHECK_THROWS_AS(of.sitting.solved("another", {}, "page", false), FileChanged);
    for (const char* text : {"7.1", "7.2", "7.3", "7.4"}) {
        CHECK(of.folder.file("board.toml", plank(text)) == of.file);
        CHECK(of.sitting.opened()["revision"] == of.sitting.revision_now());
    }
    CHECK_THROWS_AS(of.sitting.drawn(of.revision, {}, 0), FileChanged);
    of.sitting.stop();
    CHECK_THROWS_AS(of.sitting.solved(of.sitting.revision_now(), {}, "page", false), Superseded);
}
