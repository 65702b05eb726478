#include "io/write/formats.hpp"

#include <chrono>

#include "io/write/drawing.hpp"
#include "io/write/field_files.hpp"
#include "io/write/result_json.hpp"
#include "io/write/solved_board.hpp"
#include "io/write/stations_csv.hpp"

namespace vrid {
namespace {

void write_stations(const SolvedBoard& solved, const WriteOptions&, StagedFiles& files) {
    files.add("stations.csv", stations_csv(solved));
}

void write_lines(const SolvedBoard& solved, const WriteOptions&, StagedFiles& files) {
    files.add("lines.csv", lines_csv(solved));
}

void write_sections(const SolvedBoard& solved, const WriteOptions&, StagedFiles& files) {
    files.add("sections.csv", sections_csv(solved.board));
}

void write_drawing(const SolvedBoard& solved, const WriteOptions&, StagedFiles& files) {
    files.add("drawing.json", drawing_json(solved.board));
}

void write_board(const SolvedBoard& solved, const WriteOptions& options, StagedFiles& files) {
    files.add("board.vtu", vtu_text(board_grid(solved), options.linear));
}

void write_cases(const SolvedBoard& solved, const WriteOptions& options, StagedFiles& files) {
    for (const CaseResult& result : solved.study.cases) {
        if (result.motion.size() > 0) {
            files.add(result.name + ".vtu", vtu_text(case_grid(solved, result), options.linear));
        }
    }
}

void write_mould(const SolvedBoard& solved, const WriteOptions&, StagedFiles& files) {
    if (const std::string mould = mould_csv(solved); !mould.empty()) {
        files.add("mould.csv", mould);
    }
}

void write_bend(const SolvedBoard& solved, const WriteOptions& options, StagedFiles& files) {
    if (solved.study.bent.empty()) {
        return;
    }
    files.add("bend.csv", bend_csv(solved.study));
    for (const BentCase& bent : solved.study.bent) {
        if (bent.motion.size() > 0) {
            files.add(bent_name(bent) + ".vtu", vtu_text(bent_grid(solved, bent), options.linear));
        }
    }
}

} // namespace

const std::vector<Format>& formats() {
    static const std::vector<Format> table{
        {"stations.csv", "section, deflection and twist by station", write_stations},
        {"lines.csv", "deflection and twist every 10 mm, tip to tip", write_lines},
        {"sections.csv", "thickness, EI and GJ every 2 mm", write_sections},
        {"drawing.json", "outline, zones and cross-sections, for reports", write_drawing},
        {"board.vtu", "the unloaded board and its section data", write_board},
        {"mould.csv", "the line to mill a mould to, of a board with a cure", write_mould},
        {"CASE.vtu", "fields of every solved case", write_cases},
        {"bend.csv", "the bent board by travel, and where each point of it is then (.vtu)",
         write_bend},
    };
    return table;
}

std::string write_result(const SolvedBoard& solved, const WriteOptions& options,
                         const std::string& folder, const std::function<void()>& between) {
    const auto start = std::chrono::steady_clock::now();
    StagedFiles files(folder);
    for (const Format& format : formats()) {
        between();
        format.write(solved, options, files);
    }
    between();
    std::vector<std::string> names = files.names();
    names.emplace_back("result.json");
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
    std::string json = result_json(solved, names, spent.count());
    files.add("result.json", json);
    files.publish_as("solve");
    return json;
}

} // namespace vrid
