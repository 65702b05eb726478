#include "io/design/number_names.hpp"

#include <numbers>

#include <catch2/catch.hpp>

#include "io/write/number_name.hpp"
#include "solver/edge.hpp"
#include "tests/io/demo_board.hpp"

using namespace vrid;
using namespace vrid::tests;
using Catch::Contains;
using Kind = NumberId::Kind;

namespace {

Board coupon() {
    return read_text_board("format = 1\nname = \"p\"\n[planform]\nrectangle_mm = [600, 60]\n"
                           "[[layer]]\nname = \"a\"\nmaterial = \"steel\"\nthickness_mm = 2\n");
}

std::optional<Unit> unit_by_name(const std::string& name) {
    const NumberFound found = find_number(name, demo());
    return found.request ? std::optional(unit_of(*found.request)) : std::nullopt;
}

} // namespace

TEST_CASE("every number that a board has by name is found, and its name given back") {
    for (const std::string& name : number_names(demo())) {
        INFO(name);
        const NumberFound found = find_number(name, demo());
        REQUIRE(found.request.has_value());
        CHECK(number_name(*found.request) == name);
    }
    CHECK(number_names(demo()).size() == 6 + 7 + 6 + 20 + 3 * 7);
    CHECK(unit_by_name("nose-twist") == Unit::twist_stiffness);
    CHECK(unit_by_name("centre-flex") == Unit::bending_stiffness);
    CHECK(unit_by_name("free-modes mode 6") == Unit::frequency);
    CHECK_FALSE(unit_by_name("free-modes").has_value());
    CHECK_FALSE(unit_by_name("free-modes mode 7").has_value());
}

TEST_CASE("numbers at a station carry it in metres") {
    const NumberId bending = parse_number("EI@-270", demo());
    CHECK(bending.kind == Kind::EI);
    CHECK(bending.station == -0.27);
    CHECK(bending == parse_number("EI@-270.0", demo()));
    CHECK_FALSE(bending == parse_number("GJ@-270", demo()));
    CHECK(parse_number("GJ@+12.5", demo()).station == 0.0125);
    CHECK(unit_of(parse_number("thickness@0", demo())) == Unit::length);
    CHECK(number_name(parse_number("EI@-270.50", demo())) == "EI@-270.5");
    CHECK(parse_number("free-modes mode 3", demo()).mode == 3);
    CHECK(parse_number("edge.loss_nose", demo()).edge_number == "loss_nose");
}

TEST_CASE("numbers of strength carry case and what of it") {
    const NumberId first = parse_number("strength.nose-twist", demo());
    CHECK(first.kind == Kind::strength);
    CHECK(first.strength_number == "first");
    CHECK(unit_of(first) == Unit::moment);
    CHECK(unit_of(parse_number("strength.nose-flex.breaks", demo())) == Unit::force);
    CHECK(unit_of(parse_number("strength.nose-flex.travel", demo())) == Unit::length);
    CHECK(unit_of(parse_number("strength.nose-twist.travel", demo())) == Unit::angle);
    CHECK_FALSE(find_number("strength.free-modes", demo()).request.has_value());
    CHECK_THAT(find_number("strength.nose-flex", coupon()).wrong, Contains("[stance]"));
}

TEST_CASE("numbers of the bent board carry case and travel") {
    const NumberId force = parse_number("nose-flex at 60 mm.force", demo());
    CHECK(force.kind == Kind::bent);
    CHECK(force.bench_case == "nose-flex");
    CHECK(force.travel == 0.06);
    CHECK(unit_of(force) == Unit::force);
    for (const char* name : {"centre-flex at 30 mm", "centre-flex at 30 mm.tangent",
                             "centre-flex at 7.5 mm.flattening", "full-twist bent 60 mm"}) {
        CHECK(number_name(parse_number(name, demo())) == name);
    }
    CHECK(unit_of(parse_number("full-twist bent 60 mm", demo())) == Unit::twist_stiffness);
    for (const char* name : {"full-twist at 60 mm", "nose-flex bent 60 mm", "nose-flex at 0 mm",
                             "nose-flex at 60", "nose-flex at 2000 mm", "free-modes at 60 mm",
                             "full-twist bent 60 mm.force", "nose-flex at 60 mm.twist"}) {
        CHECK_FALSE(find_number(name, demo()).request.has_value());
    }
    CHECK_THAT(find_number("nose-flex at 60 mm", coupon()).wrong, Contains("[stance]"));
}

TEST_CASE("a number that a board does not have is told with the nearest or the reason") {
    const auto wrong = [](const std::string& name) { return find_number(name, demo()).wrong; };
    CHECK_THAT(wrong("nose-twst"), Contains("did you mean 'nose-twist'?"));
    CHECK_THAT(wrong("edge.los_nose"), Contains("did you mean 'edge.loss_nose'?"));
    CHECK_THAT(wrong("balance_pont.x"), Contains("did you mean 'balance_point.x'?"));
    CHECK_THAT(wrong("edge.balance"), Contains("accepted"));
    CHECK_THAT(wrong("EI@middle"), Contains("EI@X with the station X in mm"));
    CHECK_THAT(wrong("EI@900"), Contains("off the board") && Contains("-782.5 and 787.5 mm"));
    CHECK_THAT(find_number("nose-twist", coupon()).wrong, Contains("no [stance]"));
    CHECK(find_number("full-twist", coupon()).wrong.empty());
    CHECK_THROWS_WITH(parse_number("mas", demo(), "--of"), "--of: " + wrong("mas"));
}

TEST_CASE("limits on a cooled board's hollow name the stations at which to tell it") {
    Board board = demo();
    board.limits["release.concavity@100"] = {{}, 1};
    board.limits["nose-twist"] = {{}, 1};
    CHECK(limited_hollows(board).empty()); // no [cure]
    board.cure = Cure{};
    board.limits["cold.concavity@-20.5"] = {{}, 1};
    board.limits["cold.concavity@700"] = {{}, 1}; // beyond the contact line
    CHECK(limited_hollows(board) == std::vector<double>{-0.0205, 0.1});
}

TEST_CASE("the edge numbers by name are those that the edge gives, in its units") {
    EdgeOptions options;
    options.degree = 2;
    options.max_size = 0.2;
    const EdgeResult result = run_edge(
        demo(), {{Side::left, std::numbers::pi / 4, 800, 0.5e9, 0.5, SnowLaw::volume}}, options);
    const auto& numbers = result.conditions.front().numbers;
    REQUIRE(numbers.size() == 21);
    for (const NamedQuantity& number : numbers) {
        INFO(number.name);
        const auto unit = unit_by_name("edge." + number.name);
        CHECK(unit.has_value() == (number.name != "balance"));
        CHECK(unit.value_or(number.quantity.unit) == number.quantity.unit);
    }
}
