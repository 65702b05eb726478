#include "mesh/board/board_fault.hpp"

#include <limits>

#include <catch2/catch.hpp>

#include "mesh/board/check_board.hpp"

using namespace vrid;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

// What one look at one value notes.
template <class Look> std::vector<BoardFault> noted(const Look& look) {
    std::vector<BoardFault> faults;
    PartCheck check(faults, {PartOfBoard::layer, "patch", 3});
    look(check);
    return faults;
}

std::vector<Fault> kinds(const std::vector<BoardFault>& faults) {
    std::vector<Fault> all;
    for (const BoardFault& fault : faults) {
        all.push_back(fault.what);
    }
    return all;
}

} // namespace

TEST_CASE("a look at a value says whether it can be worked with, and notes once why not") {
    using enum Fault;
    const auto good = [](const auto& look) { // what the look returns, beside what it notes
        bool result = false;
        const auto faults = noted([&](PartCheck& check) { result = look(check); });
        return std::pair(result, kinds(faults));
    };
    using Found = std::pair<bool, std::vector<Fault>>;
    const auto positive = [&](double v) {
        return good([v](PartCheck& c) { return c.positive("width", v); });
    };
    CHECK(positive(1e-9) == Found{true, {}});
    CHECK(positive(0) == Found{false, {not_positive}});
    CHECK(positive(-1) == Found{false, {not_positive}});
    CHECK(positive(not_a_number) == Found{false, {not_finite}});
    CHECK(positive(infinite) == Found{false, {not_finite}});
    const auto not_negative = [&](double v) {
        return good([v](PartCheck& c) { return c.not_negative("resin", v); });
    };
    CHECK(not_negative(0) == Found{true, {}});
    CHECK(not_negative(-1e-9) == Found{false, {negative}});
    CHECK(not_negative(infinite) == Found{false, {not_finite}});
    const auto share = [&](double v) {
        return good([v](PartCheck& c) { return c.share("fill", v); });
    };
    CHECK(share(1) == Found{true, {}});
    CHECK(share(0) == Found{false, {no_share}});
    CHECK(share(1.001) == Found{false, {no_share}});
    CHECK(share(infinite) == Found{false, {not_finite}});
    const auto range = [&](const std::optional<Range>& v) {
        return good([v](PartCheck& c) { return c.range("x", v); });
    };
    CHECK(range(std::nullopt) == Found{true, {}});
    CHECK(range(Range{-1, 1}) == Found{true, {}});
    CHECK(range(Range{1, 1}) == Found{false, {no_order}});
    CHECK(range(Range{-1, infinite}) == Found{false, {not_finite}});
}

TEST_CASE("a profile is looked at station by station, each fault at its entry") {
    using enum Fault;
    const auto faults_of = [](std::vector<double> x, std::vector<double> value) {
        return noted([&](PartCheck& check) {
            const std::size_t before = x.size();
            const bool good = check.profile("z", {Interpolation::linear, x, value});
            CHECK(good == (before == 2 && x[1] > x[0] && value == std::vector<double>{5, 6}));
        });
    };
    CHECK(faults_of({0, 1}, {5, 6}).empty());
    CHECK(kinds(faults_of({}, {})) == std::vector<Fault>{empty});
    const auto uneven_one = faults_of({0, 1, 2}, {5, 6});
    CHECK(kinds(uneven_one) == std::vector<Fault>{uneven});
    CHECK(uneven_one[0].told == std::vector<double>{3, 2});
    const auto falling = faults_of({0, 2, 1, 1}, {5, 6, 7, 8});
    CHECK(kinds(falling) == std::vector<Fault>{not_rising, not_rising});
    CHECK(falling[0].at.entry == 2);
    CHECK(falling[0].told == std::vector<double>{1, 2}); // the station, the one before
    CHECK(falling[1].at.entry == 3);
    const auto odd = faults_of({0, not_a_number, 1}, {5, 6, infinite});
    CHECK(kinds(odd) == std::vector<Fault>{not_finite, not_finite});
    CHECK(odd[1].at.entry == 2);
    CHECK(odd[1].found == std::vector<double>{1, infinite});
}

TEST_CASE("a fault carries its place: part, name, number, list, item, field and the name found") {
    const auto faults = noted([](PartCheck& check) {
        PartCheck zone = check.in("zone", 2);
        zone.finite("polygon", Eigen::Vector2d(0, infinite), 7);
        check.known("fabric", "clhot", std::map<std::string, int>{{"cloth", 1}});
        check.known("fabric", "", std::map<std::string, int>{{"cloth", 1}});
        CHECK(check.known("fabric", "cloth", std::map<std::string, int>{{"cloth", 1}}));
    });
    REQUIRE(faults.size() == 3);
    for (const BoardFault& fault : faults) {
        CHECK(fault.at.part == PartOfBoard::layer);
        CHECK(fault.at.name == "patch");
        CHECK(fault.at.number == 3);
    }
    CHECK(faults[0].at.list == "zone");
    CHECK(faults[0].at.item == 2);
    CHECK(faults[0].at.field == "polygon");
    CHECK(faults[0].at.entry == 7);
    CHECK(faults[1].at.list.empty()); // `in` left the part's own place as it was
    CHECK(faults[1].at.item == -1);
    CHECK(faults[1].what == Fault::unknown_name);
    CHECK(faults[1].text == "clhot");
    CHECK(faults[2].what == Fault::empty);
}

TEST_CASE("a length without end is one fault, nothing that depends on it is another") {
    Board board;
    board.planform = rectangle_planform(1.6, 0.3);
    board.materials["sheet"].isotropic = true;
    board.materials["sheet"].E1 = board.materials["sheet"].E2 = 2.6e9;
    board.materials["sheet"].nu12 = 0.3;
    board.materials["sheet"].G12 = board.materials["sheet"].G13 = board.materials["sheet"].G23 =
        1e9;
    board.materials["sheet"].density = 1000;
    Layer sheet;
    sheet.name = sheet.material = "sheet";
    sheet.thickness = 1e-3;
    board.layers = {sheet};
    board.stance = Stance{0.5, 0, 0.1, 0.1};
    REQUIRE(check_board(board).empty());
    for (double Stance::*member :
         {&Stance::width, &Stance::setback, &Stance::foot_length, &Stance::foot_width}) {
        Board endless = board;
        (*endless.stance).*member = infinite;
        CHECK(kinds(check_board(endless)) == std::vector<Fault>{Fault::not_finite});
    }
    Board endless = board;
    endless.planform.running_length = infinite;
    CHECK(kinds(check_board(endless)) == std::vector<Fault>{Fault::not_finite});
}
