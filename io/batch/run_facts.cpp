#include "io/batch/run_facts.hpp"

#include <sstream>

#include "io/write/board_file_entry.hpp"
#include "io/write/number.hpp"

namespace vrid {
namespace {

std::string whole_text(const Json& json, const char* key) {
    return json.contains(key) ? std::to_string(json[key].get<long>()) : "";
}

std::string mesh_words(const Json& mesh) {
    return whole_text(mesh, "elements") + " elements of degree " + whole_text(mesh, "degree") +
           ", " + whole_text(mesh, "unknowns") + " unknowns";
}

void add_warnings(Facts& facts, const Json& all) {
    for (const Json& warning : all.at("warnings")) {
        facts.emplace_back("warning", warning.get<std::string>());
    }
}

void add_solve(Facts& facts, const Json& result) {
    double seconds = 0;
    for (const auto& [phase, spent] : result.at("seconds").items()) {
        seconds += spent.get<double>();
    }
    std::ostringstream residual;
    residual << result.at("solver").value("residual", 0.0);
    facts.emplace_back("mesh", mesh_words(result.at("mesh")));
    facts.emplace_back("residual", residual.str());
    facts.emplace_back("seconds", significant(seconds, 2));
    for (const auto& [name, why] : result.at("skipped").items()) {
        facts.emplace_back("skipped", name + ": " + why.get<std::string>());
    }
    add_warnings(facts, result);
}

} // namespace

Facts facts_of(const Json& result, const Json& edge) {
    const Json& head = result.is_object() ? result : edge;
    const auto board = read_part<BoardEntry>(head.at("board"));
    Facts facts{{"program", head.value("program", "")}, {"content hash", board.hash}};
    if (const std::string file = board.file_words(); !file.empty()) {
        facts.insert(facts.begin(), {"board file", file});
    }
    if (result.is_object()) {
        add_solve(facts, result);
    }
    if (edge.is_object()) {
        if (edge.contains("mesh")) {
            facts.emplace_back("mesh on the edge", mesh_words(edge.at("mesh")));
        }
        add_warnings(facts, edge);
    }
    return facts;
}

} // namespace vrid
