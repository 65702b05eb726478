#include "io/write/family_report.hpp"

#include <cmath>
#include <tuple>

#include "io/write/board_text.hpp"
#include "io/write/caution.hpp"
#include "io/write/drawing.hpp"
#include "io/write/family_json.hpp"
#include "io/write/stations_csv.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

constexpr int drawn_digits = 6;
constexpr double drawn_step = 0.01; // between sections [m]

Named<std::vector<double>> along_of(const Board& board) {
    using Member = double CrossSection::*;
    const std::vector<std::tuple<const char*, Member, Unit>> columns{
        {"x_mm", &CrossSection::x, Unit::length},
        {"width_mm", &CrossSection::width, Unit::length},
        {"core_thickness_mm", &CrossSection::core_thickness, Unit::length},
        {"thickness_mm", &CrossSection::thickness, Unit::length},
        {"EI_Nm2", &CrossSection::EI, Unit::section_stiffness},
        {"GJ_Nm2", &CrossSection::GJ, Unit::section_stiffness}};
    const std::vector<CrossSection> sections = sections_along(board, drawn_step);
    Named<std::vector<double>> all;
    for (const auto& [name, member, unit] : columns) {
        std::vector<double>& column = all[name];
        for (const CrossSection& section : sections) {
            const double value = section.*member * bench_unit(unit).per_si;
            column.push_back(std::isfinite(value) ? round_significant(value, drawn_digits) : value);
        }
    }
    return all;
}

FoundSizeTarget found_target(const SizeTarget& target) {
    return {target.number, target.wanted, to_bench(target.found),
            target.met,    target.min,    target.max};
}

FoundSize found_size(const SizeAnswer& size) {
    FoundSize one{size.name,
                  size.rider,
                  size.met,
                  BoardEntry{size.board.name, size.board.hash},
                  {},
                  {},
                  {},
                  to_bench(mass_quantity(board_mass(size.board))),
                  json_of(outline_figures(size.board)),
                  SizeDrawing{drawn_outline(size.board.planform)},
                  along_of(size.board)};
    one.targets = each_of(size.targets, found_target);
    one.limits = size.limits;
    for (const auto& [path, value] : size.values) {
        one.values[path] = value;
    }
    return one;
}

} // namespace

std::string family_json(const FamilyReport& report) {
    FoundFamily all{1, program_name(), BoardEntry{report.approved, report.hash}, {}};
    for (const SizeAnswer& size : report.sizes) {
        all.sizes.push_back(found_size(size));
    }
    return json_text(written(all));
}

std::string family_text(const FamilyReport& report) {
    Table table{{left("size"), left("target"), decimal("wanted"), decimal("found"),
                 left("error bar"), left("unit"), left("")}};
    for (const SizeAnswer& size : report.sizes) {
        for (const SizeTarget& target : size.targets) {
            const BenchQuantity found = to_bench(target.found);
            const RoundedNumber shown = rounded(found.value, found.error);
            table.rows.push_back({&target == &size.targets.front() ? size.name : "", target.number,
                                  wanted_text(found_target(target)), shown.value,
                                  shown.error.empty() ? "" : "+- " + shown.error, found.unit,
                                  target.met ? "met" : "missed by " + target.miss});
        }
    }
    std::string broken;
    for (const SizeAnswer& size : report.sizes) {
        if (const std::string rows = limits_text(exceeded(size.limits)); !rows.empty()) {
            broken += "\n  [limits] of the board file that " + size.name + " breaks\n" + rows;
        }
    }
    return text(table) + broken + "\n  the boards that are met and family.json are in " +
           report.folder + "\n  vrid report " + report.folder + " lays the sizes over each other\n";
}

} // namespace vrid
