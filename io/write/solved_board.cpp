#include "io/write/solved_board.hpp"

#include <algorithm>

#include "io/write/csv_cell.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/table.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "solver/cooling/mould.hpp"

namespace vrid {

std::string bent_name(const BentCase& bent, const std::string& number) {
    return number_name({NumberId::Kind::bent, bent.name, 0, 0, {}, {}, number, bent.travel});
}

std::string bent_name(const BentMiss& miss) {
    return bent_name(BentCase{miss.name, miss.travel, {}, {}});
}

std::string bent_text(const StudyResult& study) {
    Table table{{left("bent board"), left(""), decimal("value"), left("error bar"), left("unit")}};
    for (const BentCase& bent : study.bent) {
        std::string name = bent_name(bent, "stiffness");
        for (const NamedQuantity& number : bent.numbers) {
            const BenchQuantity bench = to_bench(number.quantity);
            table.rows.push_back({name, number.name, rounded(bench.value, bench.error).value,
                                  bar_cell(bench), bench.unit});
            name.clear();
        }
    }
    return table.rows.empty() ? "" : "\n" + text(table);
}

std::string bend_csv(const StudyResult& study) {
    std::string all = "case,travel_mm,force_N,stiffness,tangent,flattening_mm\n";
    for (const BentCase& bent : study.bent) {
        all += bent.name + "," + csv_cell(bent.travel, Unit::length);
        for (const char* name : {"force", "stiffness", "tangent", "flattening"}) {
            const auto found = std::ranges::find(bent.numbers, name, &NamedQuantity::name);
            all += ",";
            if (found != bent.numbers.end()) {
                all += csv_cell(found->quantity.value, found->quantity.unit);
            }
        }
        all += "\n";
    }
    return all;
}

std::string number_name(const CaseResult& result, const NamedQuantity& number) {
    if (result.cooled) {
        const std::string name = result.name + "." + number.name;
        return number.station ? name_at_station(name, *number.station) : name;
    }
    return number.name == "stiffness" ? result.name : result.name + " " + number.name;
}

std::vector<NamedQuantity> mould_numbers(const Board& board, const CaseResult& result) {
    std::vector<NamedQuantity> all;
    if (!result.cooled || result.name != "release") {
        return all;
    }
    for (const NamedQuantity& number : result.numbers) {
        if (number.name == "camber") {
            all.push_back({"mould.camber", number.quantity});
            all.back().quantity.value = wanted_camber(board) - number.quantity.value;
        }
    }
    for (const NamedQuantity& number : result.numbers) {
        const bool of_it = contains(pressed_names, number.name);
        if (of_it && board.cure->mould) {
            all.push_back({"pressed." + number.name, number.quantity});
            all.back().quantity.value += mould_rise(board, number.name);
        }
    }
    return all;
}

std::vector<NamedQuantity> numbers_of(const SolvedBoard& solved) {
    std::vector<NamedQuantity> all{{"mass", mass_quantity(solved.mass)}};
    for (const CaseResult& result : solved.study.cases) {
        for (const NamedQuantity& number : result.numbers) {
            all.push_back({number_name(result, number), number.quantity});
        }
        const std::vector<NamedQuantity> moulds = mould_numbers(solved.board, result);
        all.insert(all.end(), moulds.begin(), moulds.end());
    }
    for (const BentCase& bent : solved.study.bent) {
        for (const NamedQuantity& number : bent.numbers) {
            all.push_back({bent_name(bent, number.name), number.quantity});
        }
    }
    if (solved.strength) {
        const std::vector<NamedQuantity> strength = strength_numbers(*solved.strength);
        all.insert(all.end(), strength.begin(), strength.end());
    }
    if (solved.edge) {
        const std::vector<NamedQuantity> edge = watched_edge_numbers(solved.edge->result);
        all.insert(all.end(), edge.begin(), edge.end());
    }
    return all;
}

std::vector<std::pair<std::string, std::string>> skipped_of(const StudyResult& study) {
    std::vector<std::pair<std::string, std::string>> all;
    for (const CaseResult& result : study.cases) {
        if (!result.skipped.empty()) {
            all.emplace_back(result.name, result.skipped);
        }
    }
    for (const BentMiss& miss : study.not_bent) {
        all.emplace_back(bent_name(miss), miss.why);
    }
    return all;
}

Verdicts verdicts_of(const SolvedBoard& solved) {
    std::vector<NamedQuantity> numbers = plain_numbers(solved.board, solved.outline, solved.mass);
    const std::vector<NamedQuantity> computed = numbers_of(solved);
    numbers.insert(numbers.end(), computed.begin(), computed.end());
    return solved.edge ? judge_with_edge(solved.board.limits, numbers, solved.edge->result)
                       : judge(solved.board.limits, numbers);
}

WrittenLoad written_load(const CaseResult& result) {
    for (const NamedQuantity& number : result.numbers) {
        if (number.quantity.unit == Unit::bending_stiffness) {
            return {1, "1 N"};
        }
        if (number.quantity.unit == Unit::twist_stiffness) {
            const BenchUnit turn = bench_unit(Unit::angle);
            return {1 / turn.per_si, "1 " + turn.name};
        }
    }
    return {1, result.cooled ? "cooled" : "scaled"};
}

} // namespace vrid
