#include "solver/design/design_kinds.hpp"

#include <cmath>
#include <map>

#include <catch2/catch.hpp>

#include "io/write/design_path.hpp"
#include "solver/design/design_board.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;

namespace {

std::map<std::string, std::optional<double>> values_of(Board& board) {
    std::map<std::string, std::optional<double>> values;
    for (const DesignPlace& place : design_places(board)) {
        values[path_of(place.id)] = value_now(place);
    }
    return values;
}

} // namespace

TEST_CASE("a design value that is set is read again, and only a scale moves others") {
    const Board board = read_text_board(demo_board_text());
    Board first = board;
    const auto before = values_of(first);
    CHECK(before.size() == design_places(first).size()); // each path once
    for (std::size_t i = 0; i < before.size(); ++i) {
        Board changed = board;
        const DesignPlace place = design_places(changed)[i];
        const std::string own = path_of(place.id);
        CAPTURE(own);
        const bool scale = place.id.kind->form == DesignForm::scale;
        const double other = scale ? 1.25 : before.at(own).value_or(0) + 0.125;
        set_value(place, other);
        for (const auto& [path, value] : values_of(changed)) {
            CAPTURE(path);
            std::optional<double> expected = before.at(path);
            if (own == "core.thickness_scale" && path.starts_with("core.thickness_mm[")) {
                *expected *= other;
            } else if (path == own && !scale) {
                expected = other;
            }
            CHECK(value == expected);
        }
    }
}

TEST_CASE("what follows a design value in a board moves by its slope") {
    const Board board = read_text_board(demo_board_text());
    for (std::size_t i = 0; i < design_board(board).values.size(); ++i) {
        const DesignBoard design = design_board(board);
        const DesignValue& value = design.values[i];
        CAPTURE(path_of(value.id));
        std::vector<double> was;
        for (const Follower& follower : value.followers) {
            was.push_back(*follower.place);
        }
        const double move = 1e-6 * std::max(std::abs(value.value), 1e-3);
        for (const DesignPlace& place : design_places(*design.board)) {
            // of a fabric each layer has its own here, under its own name
            const bool copy = place.fabric != nullptr && place.id.kind == value.id.kind &&
                              place.fabric->name == value.id.part;
            if (place.id == value.id || copy) {
                set_value(place, value.value + move);
            }
        }
        for (std::size_t k = 0; k < was.size(); ++k) {
            const Follower& follower = value.followers[k];
            CHECK(*follower.place - was[k] == Approx(follower.slope * move).epsilon(1e-5));
        }
    }
}
