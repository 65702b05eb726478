// The files of vrid sheet, read back.
#include <cmath>
#include <regex>
#include <sstream>

#include <catch2/catch.hpp>

#include "io/materials/tolerances.hpp"
#include "io/sheet/shop_sheet.hpp"
#include "io/write/caution.hpp"
#include "io/write/csv_cell.hpp"
#include "io/write/units.hpp"
#include "tests/io/demo_board.hpp"
#include "tests/random_board.hpp"

using namespace vrid;

namespace {

// The corners of the cut line of a drawing, y up [mm].
std::vector<Loop> cut_lines(const std::string& svg) {
    const std::string opening = " d=\"";
    const std::size_t path = svg.find("class=\"cut\"");
    const std::size_t from = svg.find(opening, path) + opening.size();
    REQUIRE(svg.find('>', path) > from);
    std::vector<Loop> loops;
    std::string points = svg.substr(from, svg.find('"', from) - from);
    for (char& letter : points) {
        if (letter == 'M') {
            loops.emplace_back();
        }
        letter = letter == 'L' || letter == 'Z' || letter == ',' ? ' ' : letter;
    }
    std::istringstream all(points);
    loops.clear();
    for (std::string word; all >> word;) {
        if (word.front() == 'M') {
            loops.emplace_back();
            word.erase(0, 1);
        }
        double y = 0;
        all >> y;
        loops.back().emplace_back(std::stod(word), -y);
    }
    return loops;
}

double distance_to(const std::vector<Loop>& loops, const Eigen::Vector2d& p) {
    double least = 1e9;
    for (const Loop& loop : loops) {
        for (std::size_t i = 0; i < loop.size(); ++i) {
            const Eigen::Vector2d& a = loop[i];
            const Eigen::Vector2d along = loop[(i + 1) % loop.size()] - a;
            const double t = std::clamp((p - a).dot(along) / along.squaredNorm(), 0.0, 1.0);
            least = std::min(least, (p - a - t * along).norm());
        }
    }
    return least;
}

std::vector<std::vector<std::string>> rows_of(const std::string& csv) {
    std::vector<std::vector<std::string>> rows;
    for (std::size_t at = 0; at < csv.size();) {
        rows.push_back(csv_row(csv, at));
    }
    return rows;
}

std::string content(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

void write(const ShopSheet& sheet, const std::string& folder) {
    StagedFiles files(folder);
    add_tables(sheet, files);
    add_drawings(sheet, files);
    files.add("sheet.html", sheet_html(sheet));
    files.publish();
}

ShopSheet demo_sheet() {
    return shop_sheet(tests::demo(), tolerances_of(tests::demo(), tests::shipped_library()), {});
}

} // namespace

TEST_CASE("the outline measured back from the drawing is the board's to 0.01 mm, both ways") {
    const MaterialLibrary library = load_material_library();
    for (unsigned seed = 0; seed < 6; ++seed) {
        const Board board = seed == 0 ? tests::demo() : tests::random_board(seed, library);
        CAPTURE(seed);
        const tests::TestFolder folder("sheet-outline");
        write(shop_sheet(board, {}, {}), folder.path());
        const std::string svg = content(folder.path() + "/outline.svg");
        const std::vector<Loop> cut = cut_lines(svg);
        REQUIRE(cut.size() == 1);
        const OutlineDistance distance(board.planform);
        double farthest = 0;
        for (const Eigen::Vector2d& p : cut[0]) {
            farthest = std::max(farthest, 1e3 * distance(1e-3 * p));
        }
        for (std::size_t i = 0; i < board.planform.outline.size(); ++i) {
            for (double t = 0; t < 1; t += 0.037) {
                const Eigen::Vector2d p = 1e3 * point_at(board.planform, {static_cast<int>(i), t});
                farthest = std::max(farthest, distance_to(cut, p));
            }
        }
        CHECK(farthest < 0.01);
    }
}

TEST_CASE("a drawing's user unit is 1 mm on paper") {
    const tests::TestFolder folder("sheet-scale");
    const ShopSheet sheet = demo_sheet();
    write(sheet, folder.path());
    for (std::size_t i = 0; i < sheet.pieces.size(); ++i) {
        const std::string svg = content(folder.path() + "/" + piece_file(sheet, i) + ".svg");
        std::smatch size;
        REQUIRE(std::regex_search(svg, size,
                                  std::regex("width=\"([0-9.]+)mm\" height=\"([0-9.]+)mm\" "
                                             "viewBox=\"[-0-9.]+ [-0-9.]+ ([0-9.]+) ([0-9.]+)\"")));
        CHECK(size[1] == size[3]);
        CHECK(size[2] == size[4]);
        CHECK(svg.find("100 mm: measure this line") != std::string::npos);
    }
}

TEST_CASE("each piece's drawing and points enclose the area of the cutting list") {
    const tests::TestFolder folder("sheet-pieces");
    const ShopSheet sheet = demo_sheet();
    write(sheet, folder.path());
    const auto rows = rows_of(content(folder.path() + "/cutting.csv"));
    REQUIRE(rows.size() == sheet.pieces.size() + 1);
    for (std::size_t i = 0; i < sheet.pieces.size(); ++i) {
        const std::string file = folder.path() + "/" + rows[i + 1].back();
        CAPTURE(file);
        const Region drawn{cut_lines(content(file))};
        const double listed = std::stod(rows[i + 1][7]); // [mm2]
        double border = 0;                               // [mm]
        for (const Loop& loop : drawn.loops) {
            for (std::size_t k = 0; k < loop.size(); ++k) {
                border += (loop[(k + 1) % loop.size()] - loop[k]).norm();
            }
        }
        CHECK(std::abs(area(drawn) - listed) < 0.01 * border);
        CHECK(listed == Approx(1e6 * sheet.pieces[i].area).epsilon(1e-8));
        const auto points = rows_of(content(file.substr(0, file.size() - 4) + ".csv"));
        std::size_t corners = 1;
        for (const Loop& loop : drawn.loops) {
            corners += loop.size();
        }
        CHECK(points.size() == corners);
        CHECK(std::stod(points[1][1]) == Approx(drawn.loops[0][0].x()));
    }
}

TEST_CASE("the page says whose it is, from which file, and the caution; it has boxes to fill in") {
    SheetOptions options;
    options.date = "2031-02-03 04:05 UTC";
    const Board& board = tests::demo();
    ShopSheet sheet = shop_sheet(board, {}, options);
    const std::string html = sheet_html(sheet);
    CHECK(html.find(board.name) != std::string::npos);
    CHECK(html.find(board.hash) != std::string::npos);
    CHECK(html.find(options.date) != std::string::npos);
    CHECK(html.find(caution) != std::string::npos);
    CHECK(html.find("td class=\"box\"></td>") != std::string::npos);
    CHECK(html.find("no mould line") != std::string::npos); // a rest shape without a cure
    sheet.press = PressHeights{PressLine::existing_mould, *board.rest_shape};
    CHECK(sheet_html(sheet).find("the mould that exists") != std::string::npos);
    sheet.press.reset();
    CHECK(sheet_html(sheet).find("mould") == std::string::npos);
}

TEST_CASE("the mould line has a height every 50 mm and at both tips") {
    ShopSheet sheet = shop_sheet(tests::demo(), {}, {});
    sheet.press = PressHeights{PressLine::existing_mould, *tests::demo().rest_shape};
    const auto rows = press_rows(sheet);
    const auto [tail, nose] = x_extent(tests::demo().planform);
    CHECK(rows.front().x == Approx(tail));
    CHECK(rows.back().x == Approx(nose));
    CHECK(rows[1].x == Approx(-0.75));
    CHECK(rows.size() == 2 + 31); // -750 to 750 by 50 between the tips
    CHECK(rows[16].x == Approx(0).margin(1e-12));
    CHECK(rows[16].height == Approx(4.8e-3));
}

TEST_CASE("names that no file may have become plain ones") {
    Board board = tests::demo();
    board.layers[1].name = "../Été / 45°";
    const ShopSheet sheet = shop_sheet(board, {}, {});
    CHECK(piece_file(sheet, 1) == "piece-02-t-45");
}
