// The papers of vrid sheet as a shop finds them in the folder.
#include <algorithm>
#include <cmath>
#include <map>
#include <regex>
#include <sstream>

#include <catch2/catch.hpp>

#include "io/write/csv_cell.hpp"
#include "tests/io/demo_board.hpp"
#include "tests/places.hpp"
#include "tests/whole/run_program.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

const std::string cured_board = "examples/straight-from-the-press/board.toml";

// The papers of a board by their names.
std::map<std::string, std::string> papers_of(const std::string& board) {
    const TemporaryFolder folder;
    const Run run = run_program({"sheet", board, "--out", folder.path().string()});
    CAPTURE(run.err);
    REQUIRE(run.status == 0);
    const std::string one_line = std::regex_replace(run.out, std::regex("\\s+"), " ");
    std::map<std::string, std::string> papers{{"standard output", one_line}};
    for (const std::string& name : folder.names()) {
        papers[name] = content(folder.path() / name);
    }
    return papers;
}

// Two columns of a table: the first and the one of this name.
std::map<double, double> column_of(const std::string& csv, const std::string& name) {
    std::size_t at = 0;
    const std::vector<std::string> titles = csv_row(csv, at);
    const auto found = std::ranges::find(titles, name);
    REQUIRE(found != titles.end());
    std::map<double, double> values;
    while (at < csv.size()) {
        const std::vector<std::string> row = csv_row(csv, at);
        values[std::stod(row[0])] =
            std::stod(row[static_cast<std::size_t>(found - titles.begin())]);
    }
    return values;
}

std::string replaced_in(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("of a cure and a wanted shape the sheet has the mould line that solve finds") {
    const TemporaryFolder solved;
    REQUIRE(
        run_program({"solve", cured_board, "--case", "release", "--out", solved.path().string()})
            .status == 0);
    const std::string line = content(solved.path() / "mould.csv");
    const auto papers = papers_of(cured_board);
    REQUIRE(papers.contains("mould.csv"));
    const auto heights = column_of(papers.at("mould.csv"), "height_mm");
    REQUIRE(heights.size() > 20);
    for (const auto& [name, ours] : std::map<std::string, std::string>{
             {"mould_mm", "height_mm"}, {"wanted_mm", "wanted_mm"}, {"change_mm", "change_mm"}}) {
        CAPTURE(name);
        const auto known = column_of(line, name);
        for (const auto& [x, value] : column_of(papers.at("mould.csv"), ours)) {
            CAPTURE(x);
            const auto near = std::ranges::find_if(
                known, [x = x](const auto& one) { return std::abs(one.first - x) < 1e-3; });
            REQUIRE(near != known.end());
            CHECK(value == Approx(near->second).margin(2e-4));
        }
    }
    CHECK_FALSE(papers.contains("rest_shape.csv"));
    CHECK_THAT(papers.at("sheet.html"), Contains("wanted shape minus what the press does") &&
                                            Contains("press one board, measure it"));
    CHECK_THAT(papers.at("standard output"), Contains("mould.csv: the mould that gives the"));
}

TEST_CASE("a mould that exists goes before the wanted shape, and the sheet says which it is") {
    const TemporaryFolder folder;
    const std::string board = folder.file(
        "board.toml", replaced_in(content(std::string(source_dir) + "/" + cured_board), "[cure]",
                                  "[cure]\nmould_z_mm = [[-700, 10], [0, 2], [700, 12]]"));
    const auto papers = papers_of(board);
    const auto heights = column_of(papers.at("mould.csv"), "height_mm");
    CHECK(heights.at(0) == Approx(2));
    CHECK_FALSE(papers.at("mould.csv").find("wanted") != std::string::npos);
    CHECK_THAT(papers.at("sheet.html"), Contains("the mould that exists, mould_z_mm"));
    CHECK_THAT(papers.at("standard output"), Contains("mould.csv: the mould that exists"));
}

TEST_CASE("without a cure the sheet has the wanted shape and says that it is no mould line") {
    const TemporaryFolder folder;
    const auto papers = papers_of(folder.file("board.toml", demo_board_text()));
    CHECK_FALSE(papers.contains("mould.csv"));
    REQUIRE(papers.contains("rest_shape.csv"));
    CHECK(column_of(papers.at("rest_shape.csv"), "wanted_mm").at(0) == Approx(4.8));
    CHECK_THAT(papers.at("sheet.html"), Contains("no mould line"));
    CHECK_THAT(papers.at("standard output"), Contains("the wanted shape, no mould line"));
}

TEST_CASE("lengths on the papers are whole where the board's are: no noise of the nanometre grid") {
    const std::regex noise("[0-9]\\.[0-9]*(0000[1-9]|9999[0-9])[0-9]*[,\n]");
    for (const auto& [name, text] : papers_of(querwind)) {
        if (name.ends_with(".csv") && !name.starts_with("weights")) {
            CAPTURE(name);
            std::smatch found;
            const bool noisy = std::regex_search(text, found, noise);
            CAPTURE(noisy ? found.str() : "");
            CHECK_FALSE(noisy);
        }
    }
}

TEST_CASE("a mirror image that no piece from the roll is stands on the papers") {
    const TemporaryFolder folder;
    const std::string words = "no piece from its roll";
    for (const auto& [fabric, warned] :
         std::map<std::string, bool>{{"carbon-ud-300", false}, {"triax-680", true}}) {
        CAPTURE(fabric);
        const auto papers = papers_of(
            folder.file("board.toml",
                        replaced_in(demo_board_text(), "fabric = \"carbon-ud-300\"\nangle_deg = 5",
                                    "fabric = \"" + fabric + "\"\nangle_deg = 5")));
        for (const auto& [name, text] : papers) {
            const bool of_it = name == "sheet.html" || name == "standard output" ||
                               (name.ends_with("ribbon-mirror.svg"));
            if (name.ends_with(".svg") || of_it) {
                CAPTURE(name);
                CHECK((text.find(words) != std::string::npos) == (warned && of_it));
            }
        }
        CHECK((papers.at("sheet.html").find("ribbon (mirror)") != std::string::npos));
    }
}
