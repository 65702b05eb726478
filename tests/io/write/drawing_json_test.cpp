#include "io/write/drawing.hpp"

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;

TEST_CASE("a drawing written and read again is the same to the letter") {
    const Json json = written(drawing_of(read_text_board(demo_board_text())));
    for (const char* list : {"outline", "feet", "zones", "sections", "layup"}) {
        CAPTURE(list);
        CHECK(json.at(list).size() > 1); // there is something to lose
    }
    const Drawing again = drawing_in(json, "drawing.json");
    CHECK(written(again).dump() == json.dump());
    CHECK(drawing_json(read_text_board(demo_board_text())) == json.dump() + "\n");
}

TEST_CASE("a drawing that is damaged is named with the place") {
    const Json sound = written(drawing_of(read_text_board(demo_board_text())));
    Json json = sound;
    json["contact"].push_back(3);
    CHECK_THAT(complaint_of([&] { (void)drawing_in(json, "d.json"); }),
               Contains("d.json: is damaged at /contact: found a list of 3"));
    json = sound;
    json["feet"][1].erase(3);
    CHECK_THAT(complaint_of([&] { (void)drawing_in(json, "d.json"); }),
               Contains("/feet/1: found a list of 3, accepted is a list of 4"));
    json = sound;
    json["sections"][0]["parts"][0].erase("y");
    CHECK_THROWS_WITH(drawing_in(json, "d.json"),
                      Catch::Contains("d.json: is damaged: ") && Catch::Contains("'y' not found"));
    json = sound;
    json.erase("layup"); // as earlier versions wrote it
    CHECK(drawing_in(json, "d.json").layup.value.empty());
}
