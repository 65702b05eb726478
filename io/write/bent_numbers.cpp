#include "io/write/bent_numbers.hpp"

#include <algorithm>

#include "io/write/csv_cell.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/table.hpp"

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

} // namespace vrid
