#include <cmath>

#include "io/report/found_lot.hpp"
#include "io/write/read_document.hpp"

namespace vrid {
namespace {

std::vector<double> numbers(const Json& list, std::size_t boards) {
    std::vector<double> all;
    for (const Json& one : list) {
        all.push_back(one.is_null() ? std::nan("") : one.get<double>());
    }
    must_hold(all.size() == boards, "a strip has another length than its boards");
    return all;
}

std::size_t place(const Json& json, std::size_t boards) {
    const auto at = json.get<long>();
    must_hold(at >= 0 && static_cast<std::size_t>(at) <= boards,
              "a board is named that no strip has");
    return static_cast<std::size_t>(at);
}

void read_strips(const Json& json, FoundLot& found) {
    found.serials = json.at("serials").get<std::vector<std::string>>();
    const std::size_t boards = found.serials.size();
    found.dates = json.at("dates").get<std::vector<std::string>>();
    found.dates.resize(boards);
    for (const Json& one : json.at("texts")) {
        auto words = one.at("words").get<std::vector<std::string>>();
        words.resize(boards);
        found.texts.emplace_back(one.at("column").get<std::string>(), std::move(words));
    }
    for (const Json& one : json.at("outliers")) {
        found.outliers.push_back(place(one, boards));
    }
    if (const Json& change = json.at("change"); !change.is_null()) {
        found.change = {place(change.at(0), boards), place(change.at(1), boards),
                        place(change.at(2), boards)};
    }
    for (const Json& one : json.at("numbers")) {
        found.strips.push_back(
            {one.at("number").get<std::string>(), one.at("unit").get<std::string>(),
             one.at("centre").get<double>(), numbers(one.at("readings"), boards),
             numbers(one.at("ewma"), boards), numbers(one.at("half_width"), boards)});
    }
}

LotBell bell_of(const Json& one) {
    LotBell bell{one.at("number").get<std::string>(),
                 one.at("unit").get<std::string>(),
                 one.at("predicted").at("mean").get<double>(),
                 one.at("predicted").at("sd").get<double>(),
                 one.at("found").at("mean").get<double>(),
                 one.at("found").at("sd").get<double>(),
                 {},
                 {}};
    if (const Json& limits = one.at("limits"); !limits.is_null()) {
        bell.min = perhaps_in(limits, "min");
        bell.max = perhaps_in(limits, "max");
    }
    return bell;
}

FoundLot found_of(const Json& json) {
    FoundLot found;
    found.program = json.at("program").get<std::string>();
    found.board = json.at("board").at("name").get<std::string>();
    found.hash = json.at("board").at("hash").get<std::string>();
    found.warnings = json.at("warnings").get<std::vector<std::string>>();
    found.findings = json.at("findings").get<std::vector<std::string>>();
    found.notes = json.at("notes").get<std::vector<std::string>>();
    found.boards = json.at("boards").get<int>();
    read_strips(json.at("strips"), found);
    for (const Json& one : json.at("numbers")) {
        if (one.at("cells").get<int>() > 1) {
            found.bells.push_back(bell_of(one));
        }
    }
    for (const Json& one : json.at("shifts")) {
        const double tolerance = one.at("tolerance").get<double>();
        if (tolerance > 0) {
            found.shifts.push_back({one.at("value").get<std::string>(),
                                    one.at("shift").get<double>() / tolerance,
                                    one.at("sd").get<double>() / tolerance});
        }
    }
    return found;
}

} // namespace

FoundLot read_found_lot(const std::string& text, const std::string& file) {
    FoundLot found;
    read_document(text, file, "strips", [&](const Json& json) { found = found_of(json); });
    return found;
}

} // namespace vrid
