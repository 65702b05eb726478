#include <catch2/catch.hpp>

#include "io/toml/fault_words.hpp"

using namespace vrid;

namespace {

BoardFault fault(Fault what, BoardPlace at, std::vector<double> found = {},
                 std::vector<double> told = {}) {
    return {std::move(at), what, std::move(found), std::move(told), "x"};
}

} // namespace

TEST_CASE("a fault of a board is told by the path and in the units of a board file") {
    CHECK(fault_words(fault(Fault::wide_band, {PartOfBoard::edge, "", -1, "", -1, "width"}, {0.13},
                            {0.1255}))
              .message == "edge.width_mm: found 130; accepted: with its flange, if any, less than "
                          "half the width of the board, 125.5 (mm)");
    CHECK(fault_words(fault(Fault::no_order, {PartOfBoard::layer, "patch", 4, "zone", 1, "x"},
                            {0.42, -0.42}))
              .message ==
          "layer.patch.zones[1].x_mm: found [420, -420]; accepted: [from, to] with from below to");
    CHECK(fault_words(fault(Fault::not_rising, {PartOfBoard::cure, "", -1, "", -1, "mould", 2}, {},
                            {-0.6, -0.55}))
              .message == "cure.mould_z_mm[2]: found the station -600 after -550; accepted: "
                          "stations that rise strictly");
    CHECK(fault_words(fault(Fault::mirror_overlap, {PartOfBoard::layer, "", 3, "", -1, "mirror"},
                            {}, {0.0156}))
              .message == "layer[3].mirror: its mirror image overlaps it over 15600 mm2; accepted: "
                          "a zone on one side of y = 0");
    CHECK(fault_words(fault(Fault::large_contraction,
                            {PartOfBoard::material, "own", -1, "", -1, "nu12"}, {2.1}, {2}))
              .message ==
          "material.own.nu12: found 2.1; accepted: an absolute value below sqrt(E1/E2) = 2");
}

TEST_CASE("a fault stands at its key in the file, or at the table that the key would stand in") {
    const KeyPlaces places{{"edge", "b:1:1"},
                           {"edge.width_mm", "b:2:9"},
                           {"layer.a", "b:5:1"},
                           {"layer[1]", "b:8:1"},
                           {"layer[1].name", "b:9:8"},
                           {"layer.p.zones[0].x_mm", "b:12:20"},
                           {"layer.p.zones[0]", "b:12:10"},
                           {"core.strips_left", "b:20:1"}};
    const auto place = [&](Fault what, const BoardPlace& at) {
        return fault_words(fault(what, at), places).place;
    };
    CHECK(place(Fault::feet_overlap, {PartOfBoard::edge, "", -1, "", -1, "width"}) == "b:2:9");
    CHECK(place(Fault::off_board, {PartOfBoard::edge, "", -1, "", -1, "x"}) == "b:1:1");
    CHECK(place(Fault::name_twice, {PartOfBoard::layer, "a", 1, "", -1, "name"}) == "b:9:8");
    CHECK(place(Fault::misses_board, {PartOfBoard::layer, "p", 2, "zone", 0}) == "b:12:10");
    CHECK(place(Fault::off_board, {PartOfBoard::core, "", -1, "strips", 2, "x"}) == "b:20:1");
    CHECK(place(Fault::feet_overlap, {PartOfBoard::stance, "", -1, "", -1, "width"}).empty());
}

TEST_CASE("every fault has its words, with all marks filled in") {
    for (int i = 0; i <= static_cast<int>(Fault::limits_cross); ++i) {
        const std::string words =
            fault_words(fault(static_cast<Fault>(i), {PartOfBoard::core}, {1, 2}, {1, 2, 3}))
                .message;
        CAPTURE(words);
        CHECK(words.starts_with("core: "));
        CHECK(words.size() > 12);
    }
}
