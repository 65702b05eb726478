#include "mesh/board/check_board.hpp"

#include <catch2/catch.hpp>

using namespace vrid;

namespace {

std::vector<BoardFault> hardware_faults(const Board& board) {
    std::vector<BoardFault> faults;
    check_hardware(board, &board.planform, faults);
    return faults;
}

Board bare_plate(const Planform& planform) {
    Board board;
    board.planform = planform;
    board.materials["steel"];
    return board;
}

// 1.6 m long, 0.3 m wide, with a notch of 0.1 m from either side about a station.
Planform notched(double station) {
    return polygon_planform({{-0.8, -0.15},
                             {station - 0.05, -0.15},
                             {station, -0.05},
                             {station + 0.05, -0.15},
                             {0.8, -0.15},
                             {0.8, 0.15},
                             {station + 0.05, 0.15},
                             {station, 0.05},
                             {station - 0.05, 0.15},
                             {-0.8, 0.15}},
                            1.6);
}

// Whether a running surface that leaves its last station with this slope is folded there.
std::vector<BoardFault> folds(double end, double slope, bool at_tail = false) {
    Board board = bare_plate(rectangle_planform(1.6, 0.3));
    board.rest_shape = Profile{Interpolation::linear, {-end, 0, end}, {0, 0, slope * end}};
    if (at_tail) {
        board.rest_shape->value = {slope * end, 0, 0};
    }
    return hardware_faults(board);
}

} // namespace

TEST_CASE("bands of edge and sidewall leave something between them in the middle half") {
    const auto faults = [](const Planform& planform, double edge, double flange, double sidewall) {
        Board board = bare_plate(planform);
        board.edge = Edge{"steel", edge, std::nullopt, std::nullopt};
        if (flange > 0) {
            board.edge->flange = Flange{flange, 5e-4, 0.5};
        }
        board.sidewall = Sidewall{"steel", sidewall, std::nullopt};
        board.layers.emplace_back().kind = LayerKind::core;
        return hardware_faults(board);
    };
    const Planform plate = rectangle_planform(1.6, 0.3);
    CHECK(faults(plate, 0.1, 0.049, 0.149).empty());
    const auto both = faults(plate, 0.1, 0.051, 0.151);
    REQUIRE(both.size() == 2);
    CHECK(both[0].at.part == PartOfBoard::edge);
    CHECK(both[0].found == std::vector<double>{0.1}); // the edge's own width
    CHECK(both[0].told[0] == Approx(0.15));
    CHECK(both[1].at.part == PartOfBoard::sidewall);
    CHECK(faults(plate, 0.149, 0, 0.1).empty());
    // 0.1 m are left at the notch, which counts within a quarter of the length from the middle
    CHECK(faults(notched(0.36), 0.051, 0, 0.01).size() == 1);
    CHECK(faults(notched(-0.36), 0.051, 0, 0.01).size() == 1);
    CHECK(faults(notched(0), 0.049, 0, 0.01).empty());
    CHECK(faults(notched(0.48), 0.051, 0, 0.01).empty());
}

TEST_CASE("all four corners of each foot are on the board") {
    const auto faults = [](double width, double setback, double foot_width) {
        Board board = bare_plate(rectangle_planform(1.6, 0.3));
        board.stance = Stance{width, setback, 0.1, foot_width};
        std::vector<Fault> all;
        for (const BoardFault& fault : hardware_faults(board)) {
            all.push_back(fault.what);
        }
        return all;
    };
    using enum Fault;
    CHECK(faults(1.49, 0, 0.29).empty());
    CHECK(faults(1.51, 0, 0.29) == std::vector<Fault>{front_foot_off, rear_foot_off});
    CHECK(faults(1.0, 0, 0.31) == std::vector<Fault>{wide_foot});       // wherever the feet are
    CHECK(faults(1.4, 0.06, 0.2) == std::vector<Fault>{rear_foot_off}); // set back, to the tail
    CHECK(faults(1.4, -0.06, 0.2) == std::vector<Fault>{front_foot_off});
    CHECK(faults(0.1, 0, 0.2) == std::vector<Fault>{feet_overlap});
    CHECK(faults(0.11, 0, 0.2).empty());
}

TEST_CASE("spacer and sidewall want a layer of the core, inserts a mass and a stance") {
    Board board = bare_plate(rectangle_planform(1.6, 0.3));
    board.tip_spacer = TipSpacer{"steel", {-0.6, 0.6}};
    board.sidewall = Sidewall{"steel", 0.01, std::nullopt};
    CHECK_FALSE(has_core_layer(board));
    REQUIRE(hardware_faults(board).size() == 2);
    CHECK(hardware_faults(board)[0].at.part == PartOfBoard::tip_spacer);
    CHECK(hardware_faults(board)[0].what == Fault::no_core_layer);
    CHECK(hardware_faults(board)[1].at.part == PartOfBoard::sidewall);
    board.layers.resize(2);
    board.layers[1].kind = LayerKind::core;
    CHECK(has_core_layer(board));
    CHECK(hardware_faults(board).empty());
    board.mass_only = {0, 4, 0};
    REQUIRE(hardware_faults(board).size() == 2);
    CHECK(hardware_faults(board)[0].what == Fault::inserts_without_mass);
    CHECK(hardware_faults(board)[1].what == Fault::inserts_without_stance);
    board.mass_only = {0, 0, 0};
    CHECK(hardware_faults(board).empty());
}

TEST_CASE("a surface that falls steeply where its curve ends inside the board is folded") {
    CHECK(folds(0.6, -0.09).empty());
    const auto folded = folds(0.6, -0.11);
    REQUIRE(folded.size() == 1);
    CHECK(folded[0].what == Fault::folded_surface);
    REQUIRE(folded[0].told.size() == 3); // where, the change of slope, the most
    CHECK(folded[0].told[0] == 0.6);
    CHECK(folded[0].told[1] == Approx(0.11));
    CHECK(folds(0.6, 0.5).empty());     // rising it goes on straight
    CHECK(folds(0.795, -0.11).empty()); // at its tip
    REQUIRE(folds(0.6, -0.11, true).size() == 1);
    CHECK(folds(0.6, -0.11, true)[0].told[0] == -0.6);
    CHECK(folds(0.795, -0.11, true).empty());
    // stations lie along the surface: no rise is longer than they are apart
    CHECK(folds(0.6, 0.94).empty());
    REQUIRE(folds(0.6, 0.96).size() == 1);
    CHECK(folds(0.6, 0.96)[0].what == Fault::steep_surface);
}
