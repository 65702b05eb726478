#include "io/batch/folder_results.hpp"

#include <algorithm>
#include <sstream>

#include "io/write/number.hpp"
#include "io/write/strength_doubts.hpp"

namespace vrid {
namespace {

std::string mesh_words(const MeshEntry& mesh) {
    return std::to_string(mesh.elements) + " elements of degree " + std::to_string(mesh.degree) +
           ", " + std::to_string(mesh.unknowns) + " unknowns";
}

void add_warnings(Facts& facts, const std::vector<std::string>& warnings) {
    for (const std::string& warning : warnings) {
        facts.emplace_back("warning", warning);
    }
}

/// Those that no earlier document has told.
void add_new_warnings(Facts& facts, const std::vector<std::string>& warnings) {
    for (const std::string& warning : warnings) {
        if (const std::pair fact{std::string("warning"), warning};
            std::ranges::find(facts, fact) == facts.end()) {
            facts.push_back(fact);
        }
    }
}

void add_solve(Facts& facts, const FoundResult& result) {
    double seconds = 0;
    for (const auto& [phase, spent] : result.seconds) {
        seconds += spent;
    }
    std::ostringstream residual;
    residual << result.solver.residual;
    facts.emplace_back("mesh", mesh_words(result.mesh));
    facts.emplace_back("residual", residual.str());
    facts.emplace_back("seconds", significant(seconds, 2));
    for (const auto& [name, why] : result.skipped) {
        facts.emplace_back("skipped", name + ": " + why);
    }
    add_warnings(facts, result.warnings);
}

} // namespace

Facts facts_of(const FolderResults& found) {
    Facts facts{{"program", found.program()}, {"content hash", found.board().hash}};
    if (const std::string file = found.board().file_words(); !file.empty()) {
        facts.insert(facts.begin(), {"board file", file});
    }
    if (found.result) {
        add_solve(facts, *found.result);
    }
    if (found.edge) {
        if (found.edge->mesh) {
            facts.emplace_back("mesh on the edge", mesh_words(*found.edge->mesh));
        }
        add_new_warnings(facts, found.edge->warnings);
    }
    if (found.strength) {
        add_new_warnings(facts, strength_doubts(*found.strength));
    }
    return facts;
}

} // namespace vrid
