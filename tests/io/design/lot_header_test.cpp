// The first row of a file of readings.
#include "io/design/read_lot.hpp"

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

namespace {

using Meaning = LotCellMeaning::Kind;

struct ReadHeader {
    CsvText csv;
    LotHeader header;
    explicit ReadHeader(const std::string& line)
        : csv(csv_text(line + "\n", "lot.csv")), header(lot_header(csv, demo())) {}
    [[nodiscard]] std::string problem() const {
        return csv.problems.size() == 1 ? csv.problems[0].place + ": " + csv.problems[0].message
                                        : std::to_string(csv.problems.size()) + " problems";
    }
};

} // namespace

TEST_CASE("columns are serial, date, words, numbers and design values, wherever they stand") {
    const ReadHeader read("mass,batch.resin,serial,core.thickness_mm[3],date,press,EI@-270");
    CHECK(read.csv.problems.empty());
    const LotHeader& header = read.header;
    CHECK(header.can_be_read);
    CHECK(header.serial == 2);
    const std::vector<std::pair<Meaning, std::size_t>> expected{
        {Meaning::reading, 0}, {Meaning::word, 0}, {Meaning::serial, 0}, {Meaning::reading, 1},
        {Meaning::date, 0},    {Meaning::word, 1}, {Meaning::reading, 2}};
    REQUIRE(header.meaning.size() == expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
        CAPTURE(i);
        CHECK(header.meaning[i].kind == expected[i].first);
        CHECK(header.meaning[i].index == expected[i].second);
    }
    CHECK(header.words == std::vector<std::string>{"batch.resin", "press"});
    REQUIRE(header.columns.size() == 3);
    CHECK(header.columns[0].number->kind == NumberId::Kind::mass);
    CHECK(header.columns[0].place == "lot.csv:1:1");
    CHECK_FALSE(header.columns[1].number);
    CHECK(header.columns[1].value->index == 3);
    CHECK(header.columns[1].nominal == Approx(6.8e-3));
    CHECK(header.columns[1].name == "core.thickness_mm[3]");
    CHECK(header.columns[2].number->station == Approx(-0.27));
    CHECK(header.columns[2].place == "lot.csv:1:57");
}

TEST_CASE("a header wants serials, readings, and names that the board has, each once") {
    CHECK_THAT(ReadHeader("mass,date").problem(),
               Catch::StartsWith("lot.csv:1:1: ") && Contains("found no column serial"));
    CHECK_FALSE(ReadHeader("mass,date").header.can_be_read);
    CHECK_THAT(ReadHeader("serial,date").problem(), Contains("found no column of readings"));
    CHECK_FALSE(ReadHeader("serial,date").header.can_be_read);
    const ReadHeader twice("serial,mass,mass");
    CHECK_THAT(twice.problem(), Catch::StartsWith("lot.csv:1:13: ") && Contains("a second time"));
    CHECK(twice.header.columns.size() == 1);
    CHECK(twice.header.meaning.at(2).kind == Meaning::wrong);
    CHECK_THAT(ReadHeader("serial,mass,").problem(), Contains("found a column without a name"));
    CHECK_THAT(ReadHeader("serial,mass,batch.").problem(), Contains("lot.csv:1:13: no number"));
    CHECK_THAT(ReadHeader("serial,mass,mas").problem(),
               Contains("no number of this board is called \"mas\"") && Contains("'mass'"));
    CHECK_THAT(ReadHeader("serial,mass,edge.peak").problem(), Contains("which no bench measures"));
    CHECK_THAT(ReadHeader("serial,mass,EI@9000").problem(),
               Contains("lot.csv:1:13: ") && !Contains("no number of this board is called"));
}
