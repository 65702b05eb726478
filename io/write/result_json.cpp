#include "io/write/result_json.hpp"
#include "io/write/board_file_entry.hpp"
#include "io/write/caution.hpp"

#include "io/write/cooled_json.hpp"
#include "io/write/cooled_text.hpp"
#include <set>

#include "io/write/bent_numbers.hpp"
#include "io/write/json_parts.hpp"
#include "io/write/program_name.hpp"

namespace vrid {
namespace {

constexpr int residual_digits = 2; // only its size says something
constexpr int seconds_digits = 4;

Json cases_of(const StudyResult& study) {
    Json all = Json::object();
    for (const CaseResult& result : study.cases) {
        if (!result.skipped.empty()) {
            continue;
        }
        if (result.cooled) {
            all[result.name] = json_of_cooled(result);
            continue;
        }
        Json numbers = Json::object();
        for (const NamedQuantity& number : result.numbers) {
            numbers[number.name] = json_of(number.quantity);
        }
        all[result.name] = numbers;
    }
    for (const BentCase& bent : study.bent) {
        Json numbers = Json::object();
        for (const NamedQuantity& number : bent.numbers) {
            numbers[number.name] = json_of(number.quantity);
        }
        all[bent_name(bent)] = numbers;
    }
    return all;
}

Json travels_of(const StudyResult& study) {
    std::set<double> travels;
    for (const BentCase& bent : study.bent) {
        travels.insert(round_significant(to_bench({bent.travel, 0, Unit::length}).value, 12));
    }
    return travels;
}

Json skipped_of(const SolvedBoard& solved) {
    Json all = Json::object();
    for (const CaseResult& result : solved.study.cases) {
        if (!result.skipped.empty()) {
            all[result.name] = result.skipped;
        }
    }
    if (!solved.edge_skipped.empty()) {
        all["edge"] = solved.edge_skipped;
    }
    return all;
}

Json seconds_of(const SolvedBoard& solved, double seconds_write) {
    const auto spent = [&](const char* phase) {
        const auto found = solved.study.seconds.find(phase);
        const double seconds = found == solved.study.seconds.end() ? 0.0 : found->second;
        return round_significant(seconds, seconds_digits);
    };
    Json all;
    all["read"] = round_significant(solved.seconds_read, seconds_digits);
    for (const char* phase : {"mesh", "sections", "assemble", "factor", "solve"}) {
        all[phase] = spent(phase);
    }
    if (solved.edge) {
        double edge = 0;
        for (const auto& [phase, seconds] : solved.edge->result.seconds) {
            edge += seconds;
        }
        all["edge"] = round_significant(edge, seconds_digits);
    }
    all["write"] = round_significant(seconds_write, seconds_digits);
    return all;
}

} // namespace

std::string result_json(const SolvedBoard& solved, const std::vector<std::string>& files,
                        double seconds_write) {
    const StudyResult& study = solved.study;
    Json all;
    all["format"] = 1;
    all["program"] = program_name();
    all["board"] = written(board_file_entry(solved.board, solved.set));
    all["outline"] = json_of(solved.outline);
    all["mass"] = json_of(mass_quantity(solved.mass));
    all["balance_point"] = balance_point(solved.mass);
    all["shape"] = study.rest ? "rest" : "flat";
    all["cases"] = cases_of(study);
    if (const Json mould = json_of_mould(solved); !mould.empty()) {
        all["mould"] = mould;
        for (const CaseResult& result : study.cases) {
            for (const NamedQuantity& number : mould_numbers(solved.board, result)) {
                if (number.name == "mould.camber") {
                    all["mould_camber"] = json_of(number.quantity);
                } else {
                    const std::string own = number.name.substr(number.name.find('.') + 1);
                    all["pressed"][own] = json_of(number.quantity);
                }
            }
        }
    }
    if (!study.bent.empty()) {
        all["bend_mm"] = travels_of(study);
    }
    all["skipped"] = skipped_of(solved);
    all["limits"] = written(verdicts_of(solved));
    all["mesh"] = Json{{"elements", study.mesh.quads.size()},
                       {"degree", study.numbering.degree},
                       {"unknowns", study.unknowns}};
    all["solver"] = Json{{"residual", round_significant(study.residual, residual_digits)},
                         {"rel_error_met", study.rel_error_met}};
    all["warnings"] = json_of(solved.warnings);
    for (const std::string& warning : study.warnings) {
        all["warnings"].push_back(warning);
    }
    for (const std::string& warning : stretch_warnings(study)) {
        all["warnings"].push_back(warning);
    }
    all["files"] = files;
    all["caution"] = caution;
    all["seconds"] = seconds_of(solved, seconds_write);
    return json_text(all);
}

} // namespace vrid
