// The verbs about design values, run as a user runs them.
#include <filesystem>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/places.hpp"

#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Json = nlohmann::json;

namespace {

const std::string readings = R"(format = 1
[[reading]]
number = "mass"
value = 0.41
sd = 0.002
[[reading]]
number = "EI@0"
value = 30
sd = 0.3
)";

} // namespace

TEST_CASE("sense prints the largest change first and writes the same derivatives as JSON") {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "sense").string();
    const Run run =
        run_program({"sense", querwind, "--of", "nose-twist,EI@0", "--to",
                     "core.thickness_mm,layer.*.angle_deg", "--degree", "2", "--out", out});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("nose-twist = ") && Contains("EI@0 = ") &&
                            Contains("core.thickness_mm[12]") && !Contains("E_GPa"));
    const Json json = Json::parse(content(out + "/sense.json"));
    CHECK(json["format"] == 1);
    double last = 1e300;
    int count = 0;
    for (const Json& one : json["derivatives"]) {
        if (one["of"] == "nose-twist") {
            const double change = std::abs(one["percent_per_step"].get<double>());
            CHECK(change <= last);
            last = change;
            ++count;
            CHECK(one["unit"].get<std::string>().starts_with("N m/deg per "));
        }
    }
    CHECK(count == 17 + 5); // stations; layers but the core
    CHECK(content(out + "/sense.vtu").size() > 10000);
    const Run again =
        run_program({"sense", querwind, "--of", "nose-twist,EI@0", "--to",
                     "core.thickness_mm,layer.*.angle_deg", "--degree", "2", "--json"});
    CHECK(again.out == content(out + "/sense.json"));
}

TEST_CASE("sense, scatter and calibrate refuse names that the board has not, with the nearest") {
    const TemporaryFolder folder;
    const auto refused = [](const std::vector<std::string>& words, const std::string& hint) {
        const Run run = run_program(words);
        INFO(run.err);
        CHECK(run.status == 2);
        CHECK(run.out.empty());
        CHECK_THAT(run.err, Contains(hint));
    };
    refused({"sense", querwind, "--of", "nose-twst"}, "did you mean 'nose-twist'");
    refused({"sense", querwind, "--to", "layer.bse.angle_deg"}, "layer.base.angle_deg");
    refused({"sense", querwind, "--of", "EI@9000"}, "EI@9000");
    refused({"sense", querwind, "--angle", "30,60"}, "one value each");
    refused({"sense", coupon, "--of", "nose-twist"}, "nose-twist");
    refused({"scatter", querwind, "--of", "mas"}, "did you mean 'mass'");
    refused({"scatter", querwind, "--samples", "-3"}, "--samples");
    const std::string zero = folder.file("zero.toml", R"(format = 1
[[reading]]
number = "mass"
value = 0.4
sd = 0
[[free]]
value = "core.thickness_scale"
)");
    refused({"calibrate", coupon, zero}, "sd");
    const std::string unknown =
        folder.file("unknown.toml", readings + "[[free]]\nvalue = \"material.epoxi.E_GPa\"\n");
    refused({"calibrate", coupon, unknown}, "material.epoxy.E_GPa");
    const std::string few = folder.file(
        "few.toml", readings + "[[free]]\nvalue = \"core.thickness_scale\"\n"
                               "[[free]]\nvalue = \"layer.lower glass.areal_weight_scale\"\n"
                               "[[free]]\nvalue = \"material.epoxy.E_GPa\"\n");
    refused({"calibrate", coupon, few}, "readings"); // the whole core's scale has no deviation
    const std::string ok = folder.file("ok.toml", readings);
    refused({"calibrate", coupon, ok, "--out", coupon}, "input");
    (void)folder.file("stock.toml", "[material.ours]\nE_GPa = 9\nnu = 0.3\ndensity_kgm3 = 450\n");
    const std::string names =
        folder.file("names.toml",
                    "include = \"stock.toml\"\n" + content(std::string(source_dir) + "/" + coupon));
    const TemporaryFolder other;
    const std::string answer = (other.path() / "new.toml").string();
    refused({"calibrate", names, ok, "--out", answer}, "found from its own folder");
    refused({"lot", names, ok, "--fitted", answer}, "found from its own folder");
    const std::string sizes = folder.file(
        "sizes.toml", "[[target]]\nnumber = \"mass\"\npercent = 1\n[[size]]\nname = \"a\"\n"
                      "[[free]]\nvalue = \"core.thickness_scale\"\nmin = 0.9\nmax = 1.1\n");
    refused({"match", names, sizes, "--out", other.path().string()}, "found from its own folder");
}

TEST_CASE("a negative tolerance in the board file is refused with its place") {
    const TemporaryFolder folder;
    const std::string board =
        folder.file("board.toml", content(std::string(source_dir) + "/" + coupon) +
                                      "\n[tolerance]\n\"core.thickness_mm\" = -0.05\n");
    const Run run = run_program({"scatter", board});
    CHECK(run.status == 2);
    CHECK_THAT(run.err, Contains("board.toml:") && Contains("core.thickness_mm"));
}

TEST_CASE("scatter gives yield and shares, and its samples are the same for the same seed") {
    const std::vector<std::string> words{"scatter",   coupon, "--of",   "centre-flex,mass",
                                         "--samples", "40",   "--seed", "5",
                                         "--degree",  "2",    "--json"};
    const Run run = run_program(words);
    CHECK(run.status == 0);
    const Json json = Json::parse(run.out);
    double shares = 0;
    for (const Json& source : json["numbers"]["centre-flex"]["sources"]) {
        shares += source["share"].get<double>();
    }
    CHECK(shares == Approx(1).margin(1e-6));
    CHECK(json["numbers"]["mass"]["sampled"]["sd"].get<double>() > 0);
    CHECK(run_program(words).out == run.out);
}

TEST_CASE(
    "scatter says of a number that stays that it does, and names no source that is rounding") {
    const Run run = run_program({"scatter", coupon, "--of", "length,balance_point.y,mass",
                                 "--samples", "8", "--degree", "2"});
    CHECK(run.status == 0);
    CHECK_THAT(run.out, Contains("length = 300.0 mm\n  it does not scatter\n") &&
                            Contains("balance_point.y = 0.000 mm\n  it does not scatter\n") &&
                            Contains("with 8 samples"));
    const Run twist = run_program({"scatter", coupon, "--of", "mass", "--samples", "0", "--json"});
    for (const Json& source : Json::parse(twist.out)["numbers"]["mass"]["sources"]) {
        CHECK(source["share"].get<double>() > 1e-12);
    }
}

TEST_CASE("scatter tells which limits have no yield and which tolerances move nothing") {
    const TemporaryFolder folder;
    const std::string board = folder.file(
        "board.toml", content(std::string(source_dir) + "/" + coupon) +
                          "\n[tolerance]\nformat = 1\n[limits]\n\"EI@0\" = { min = 1 }\n"
                          "\"mass\" = { max = 2 }\n");
    const std::string none = "warning: no yield for the limits of ";
    const Run run = run_program({"scatter", board, "--samples", "0", "--degree", "2"});
    CHECK(run.status == 0);
    CHECK_THAT(run.err, Contains("board.toml: warning: the tolerance of format is left out") &&
                            Contains(none + "EI@0: it is computed only when --of names it") &&
                            !Contains(none + "mass"));
    const Run named = run_program({"scatter", board, "--samples", "0", "--of", "EI@0"});
    CHECK_THAT(named.out, Contains("inside the limits"));
    CHECK_THAT(named.err, !Contains(none));
}

TEST_CASE("calibrate writes a board file that gives the fitted numbers when it is solved") {
    const TemporaryFolder folder;
    const Run before = run_program({"solve", coupon, "--case", "centre-flex", "--json"});
    const double stiffness =
        Json::parse(before.out)["cases"]["centre-flex"]["stiffness"]["value"].get<double>();
    const std::string bench = folder.file("bench.toml", R"(format = 1
[[reading]]
number = "centre-flex"
value = )" + std::to_string(0.98 * stiffness) + R"(
sd = )" + std::to_string(0.001 * stiffness) + R"(
[[free]]
value = "material.e-glass.E_GPa"
)");
    const std::string fitted = (folder.path() / "fitted.toml").string();
    const Run run = run_program({"calibrate", coupon, bench, "--out", fitted, "--json"});
    INFO(run.err);
    REQUIRE(run.status == 0);
    const Json json = Json::parse(run.out);
    const double after = json["readings"][0]["after"]["value"].get<double>();
    const Run solved = run_program({"solve", fitted, "--case", "centre-flex", "--json"});
    CHECK(Json::parse(solved.out)["cases"]["centre-flex"]["stiffness"]["value"].get<double>() ==
          Approx(after).epsilon(1e-5));
    CHECK(std::abs(after / stiffness - 0.98) < 0.002);
}

TEST_CASE("calibrate writes no board from readings that do not fit, unless it is told to") {
    const TemporaryFolder folder;
    // a reading that no epoxy brings about
    const std::string bench = folder.file("bench.toml", "format = 1\n[[reading]]\n"
                                                        "number = \"centre-flex\"\nvalue = 1\n"
                                                        "sd = 0.001\n[[free]]\n"
                                                        "value = \"material.epoxy.E_GPa\"\n");
    const std::string fitted = (folder.path() / "fitted.toml").string();
    const Run refused = run_program({"calibrate", coupon, bench, "--out", fitted});
    CHECK(refused.status == 1);
    CHECK_THAT(refused.err,
               Contains("no board was written") && Contains("centre-flex") && Contains("--force"));
    CHECK_FALSE(std::filesystem::exists(fitted));
    CHECK(run_program({"calibrate", coupon, bench, "--out", fitted, "--force"}).status == 1);
    CHECK(std::filesystem::exists(fitted));
}
