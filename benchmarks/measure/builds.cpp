#include <fstream>
#include <sstream>

#include "benchmarks/measure/parts.hpp"

namespace vrid::measure {

namespace {

struct Build {
    const char* name; // in the file
    const char* what;
    double minutes;
};
constexpr Build builds[]{{"first", "README's first command, packages installed, no cache", 4},
                         {"tests", "README's test command, the same way", 8}};

// The line "NAME MINUTES what machine, when" of the file; false: none.
bool look_up(const std::string& path, const std::string& name, double& minutes, std::string& note) {
    std::ifstream file(path);
    std::string line;
    while (std::getline(file, line)) {
        std::istringstream words(line);
        std::string word;
        if (words >> word >> minutes && word == name) {
            std::getline(words >> std::ws, note);
            return true;
        }
    }
    return false;
}

} // namespace

std::vector<Row> build_rows(const Means& means) {
    std::vector<Row> rows;
    for (const Build& build : builds) {
        double minutes = 0;
        std::string note;
        if (look_up(means.sources + "/benchmarks/measure/builds.txt", build.name, minutes, note)) {
            Row row = at_most(6, build.what, {minutes}, build.minutes, "min");
            row.figure += ", " + note;
            rows.push_back(row);
        } else {
            rows.push_back(not_here(6, build.what, "at most " + number_text(build.minutes) + " min",
                                    "time it in a bare root; benchmarks/measure/builds.txt"));
        }
    }
    return rows;
}

} // namespace vrid::measure
