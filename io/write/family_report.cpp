#include "io/write/family_report.hpp"

#include <cmath>
#include <tuple>

#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"
#include "io/write/drawing.hpp"
#include "io/write/program_name.hpp"
#include "io/write/sections_csv.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"

namespace vrid {
namespace {

constexpr int family_digits = 10;
constexpr int drawn_digits = 6;
constexpr double drawn_step = 0.01; // between sections [m]

Json along_json(const Board& board) {
    using Member = double CrossSection::*;
    const std::vector<std::tuple<const char*, Member, Unit>> columns{
        {"x_mm", &CrossSection::x, Unit::length},
        {"width_mm", &CrossSection::width, Unit::length},
        {"core_thickness_mm", &CrossSection::core_thickness, Unit::length},
        {"thickness_mm", &CrossSection::thickness, Unit::length},
        {"EI_Nm2", &CrossSection::EI, Unit::section_stiffness},
        {"GJ_Nm2", &CrossSection::GJ, Unit::section_stiffness}};
    const std::vector<CrossSection> sections = sections_along(board, drawn_step);
    Json all = Json::object();
    for (const auto& [name, member, unit] : columns) {
        Json& column = all[name] = Json::array();
        for (const CrossSection& section : sections) {
            const double value = section.*member * bench_unit(unit).per_si;
            column.push_back(std::isfinite(value) ? Json(round_significant(value, drawn_digits))
                                                  : Json());
        }
    }
    return all;
}

Json target_json(const SizeTarget& target) {
    return {{"number", target.number},
            {"wanted", round_significant(target.wanted, family_digits)},
            {"value", json_of(target.found)},
            {"met", target.met}};
}

Json size_json(const SizeAnswer& size) {
    Json one{{"name", size.name}};
    if (size.rider) {
        one["rider_kg"] = *size.rider;
    }
    one["met"] = size.met;
    one["board"] = written(BoardEntry{size.board.name, size.board.hash});
    one["targets"] = Json::array();
    for (const SizeTarget& target : size.targets) {
        one["targets"].push_back(target_json(target));
    }
    one["values"] = Json::object();
    for (const auto& [path, value] : size.values) {
        one["values"][path] = round_significant(value, family_digits);
    }
    one["mass"] = json_of(mass_quantity(board_mass(size.board)));
    one["outline"] = json_of(outline_figures(size.board));
    one["drawing"] = Json{{"outline", drawn_outline(size.board.planform)}};
    one["along"] = along_json(size.board);
    return one;
}

} // namespace

std::string family_json(const FamilyReport& report) {
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["board"] = written(BoardEntry{report.approved, report.hash});
    all["sizes"] = Json::array();
    for (const SizeAnswer& size : report.sizes) {
        all["sizes"].push_back(size_json(size));
    }
    all["caution"] = caution;
    return json_text(all);
}

std::string family_text(const FamilyReport& report) {
    Table table{{{"size", "", Align::left},
                 {"target", "", Align::left},
                 {"wanted", "", Align::decimal},
                 {"found", "", Align::decimal},
                 {"error bar", "", Align::left},
                 {"unit", "", Align::left},
                 {"", "", Align::left}},
                {}};
    for (const SizeAnswer& size : report.sizes) {
        for (const SizeTarget& target : size.targets) {
            const BenchQuantity found = to_bench(target.found);
            const RoundedNumber shown = rounded(found.value, found.error);
            table.rows.push_back(
                {&target == &size.targets.front() ? size.name : "", target.number,
                 significant(target.wanted, 5), shown.value,
                 shown.error.empty() ? "" : "+- " + shown.error, found.unit,
                 target.met ? "met" : "missed by " + significant(target.miss, 3) + " %"});
        }
    }
    return text(table) + "\n  the boards that are met and family.json are in " + report.folder +
           "\n  vrid report " + report.folder + " lays the sizes over each other\n";
}

} // namespace vrid
