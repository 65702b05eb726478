#include "tests/fuzz/readers.hpp"

#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <stdexcept>

#include <nlohmann/json.hpp>
#include <unistd.h>

#include "io/batch/job.hpp"
#include "io/batch/summary.hpp"
#include "io/design/read_bench.hpp"
#include "io/design/read_goal.hpp"
#include "io/design/read_lot.hpp"
#include "io/design/read_rig.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "io/write/board_text.hpp"
#include "mesh/board/error.hpp"
#include "tests/places.hpp"

namespace vrid::tests {

namespace {

namespace fs = std::filesystem;

const fs::path sources = source_dir;

std::string bytes_of(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

// The texts of the named files of the repository and of the corpus whose name begins as given.
std::vector<std::string> texts(const std::vector<std::string>& files, const std::string& kind) {
    std::vector<std::string> all;
    for (const std::string& file : files) {
        all.push_back(bytes_of(sources / file));
    }
    std::vector<fs::path> corpus;
    for (const auto& entry : fs::directory_iterator(sources / "tests/fuzz/corpus")) {
        if (entry.path().filename().string().starts_with(kind + "-")) {
            corpus.push_back(entry.path());
        }
    }
    std::sort(corpus.begin(), corpus.end()); // a folder's own order is not the same everywhere
    for (const fs::path& file : corpus) {
        all.push_back(bytes_of(file));
    }
    return all;
}

const MaterialLibrary& library() {
    static const MaterialLibrary shipped =
        read_material_library((sources / "io/materials").string());
    return shipped;
}

const Board& querwind() {
    static const Board board =
        read_board((sources / "examples/nh-157-querwind/board.toml").string(), library());
    return board;
}

// A folder for this process, in which files that readers want on a disk are written.
class OwnFolder {
  public:
    OwnFolder()
        : path_(fs::temp_directory_path() / ("vrid-fuzz-" + std::to_string(getpid()) + "/in")) {
        fs::create_directories(path_);
    }
    ~OwnFolder() {
        std::error_code ignored;
        fs::remove_all(path_.parent_path(), ignored);
    }
    OwnFolder(const OwnFolder&) = delete;
    OwnFolder& operator=(const OwnFolder&) = delete;
    [[nodiscard]] std::string path() const { return path_.string(); }
    [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / name, std::ios::binary) << text;
        return (path_ / name).string();
    }

  private:
    fs::path path_;
};

const OwnFolder& own_folder() {
    static const OwnFolder folder;
    return folder;
}

template <class Read> bool accepted(const Read& read) {
    try {
        read();
    } catch (const InputError& error) {
        if (error.problems().empty()) {
            throw std::logic_error("refused without saying why");
        }
        return false;
    }
    return true;
}

void must_be(bool condition, const std::string& what) {
    if (!condition) {
        throw std::logic_error(what);
    }
}

// What a board weighs and how stiff it is are numbers, and not below nothing.
void check_figures(const BoardFigures& figures) {
    must_be(std::isfinite(figures.mass.mass) && figures.mass.mass > 0, "mass is no mass");
    must_be(std::isfinite(figures.mass.x + figures.mass.y), "balance point is no point");
    must_be(std::isfinite(figures.outline.area) && figures.outline.area > 0, "area is no area");
    for (const StationFigures& station : figures.stations) {
        must_be(std::isfinite(station.section.EI) && station.section.EI > 0, "EI is no stiffness");
        must_be(std::isfinite(station.section.GJ) && station.section.GJ > 0, "GJ is no stiffness");
    }
}

// vrid check to its end.
void check(const Board& board) {
    const BoardFigures figures = board_figures(board, {});
    check_figures(figures);
    const auto verdicts = judge(board.limits, plain_numbers(board, figures.outline, figures.mass));
    must_be(!board_text(figures, verdicts).empty(), "nothing to print");
    must_be(nlohmann::json::parse(boards_json({figures}, {verdicts})).is_object(), "no JSON");
}

bool read_board_file(const std::string& text) {
    return accepted([&] { check(read_board_text({text, "board.toml", ""}, library())); });
}

// Outline files beside the one board that names them.
bool read_outline_file(const std::string& text) {
    static const std::string board = bytes_of(sources / "tests/fuzz/corpus/drawn.toml");
    (void)own_folder().write("outline.csv", text);
    return accepted([&] {
        check(read_board_text({board, "board.toml", own_folder().path()}, library()));
    });
}

// Beside the board that a goal of the examples wants its numbers to be the same as.
bool read_goal_file(const std::string& text) {
    static const fs::path goals = sources / "examples/match-nose-twist";
    return accepted([&] { (void)read_goal_text({text, "goal.toml", goals.string()}, querwind()); });
}

bool read_bench_file(const std::string& text) {
    return accepted([&] {
        (void)read_bench_text({text, "bench.toml", ""}, querwind(), library());
    });
}

bool read_lot_file(const std::string& text) {
    return accepted([&] { (void)read_lot_text(text, "readings.csv", querwind()); });
}

bool read_rig_file(const std::string& text) {
    return accepted([&] { (void)read_rig_text(text, "rig.toml", querwind()); });
}

// What the program wrote, read back for a report: files under lines "### NAME".
bool read_result_files(const std::string& text) {
    static const std::set<std::string> names{
        "result.json",  "edge.json",        "sense.json",    "scatter.json", "family.json",
        "lot.json",     "calibration.json", "strength.json", "drawing.json", "stations.csv",
        "sections.csv", "edge.csv",         "lines.csv"};
    const fs::path folder = fs::path(own_folder().path()) / "results";
    fs::remove_all(folder);
    fs::create_directories(folder);
    std::istringstream lines(text);
    std::ofstream file;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("### ") && names.contains(line.substr(4))) {
            file = std::ofstream(folder / line.substr(4), std::ios::binary);
        } else if (file.is_open()) {
            file << line << "\n";
        }
    }
    file.close();
    return accepted([&] {
        const std::string page = folder_report(folder);
        if (text.find("nan") != std::string::npos) {
            return; // a name may have it
        }
        for (const char* number : {"=\"nan", ",nan", "nan,", " nan "}) { // in a picture
            must_be(page.find(number) == std::string::npos, "nan in a picture");
        }
    });
}

// A suite of the one board in its folder, with the jobs that it plans. Patterns that leave the
// folder would walk through whatever disk this runs on.
bool read_suite_file(const std::string& text) {
    static const std::string board =
        own_folder().write("board.toml", bytes_of(sources / "examples/nh-157-querwind/board.toml"));
    if (text.find("..") != std::string::npos || text.find("\"/") != std::string::npos) {
        return false;
    }
    const std::string file = own_folder().write("suite.toml", text);
    return accepted([&] { (void)plan_jobs(read_suite(file), {}, library()); });
}

} // namespace

const std::vector<Reader>& readers() {
    static const std::vector<Reader> all{
        {"board", read_board_file,
         [] {
             return texts(
                 {"examples/nh-154-kieselbach/board.toml", "examples/nh-157-querwind/board.toml",
                  "examples/nh-161-lattenzaun/board.toml", "examples/coupon-sandwich/board.toml",
                  "examples/coupon-triax/board.toml"},
                 "board");
         }},
        {"outline", read_outline_file,
         [] { return texts({"tests/published/boards/outline_e.csv"}, "outline"); }},
        {"goal", read_goal_file,
         [] {
             return texts({"examples/match-nose-twist/goal-core.toml",
                           "examples/match-plant-biax/goal-core.toml",
                           "examples/waist-or-core/goal-waist.toml",
                           "examples/family-145-165/goal.toml"},
                          "goal");
         }},
        {"bench", read_bench_file,
         [] {
             return texts(
                 {"examples/twist-rig/bench.toml", "examples/twist-rig/bench-rig-doubted.toml"},
                 "bench");
         }},
        {"lot", read_lot_file, [] { return texts({"examples/plant-lot/readings.csv"}, "lot"); }},
        {"rig", read_rig_file, [] { return texts({"examples/plant-lot/rig.toml"}, "rig"); }},
        {"result", read_result_files, [] { return texts({}, "result"); }},
        {"suite", read_suite_file, [] { return texts({}, "suite"); }},
    };
    return all;
}

const Reader& reader_named(const std::string& name) {
    for (const Reader& reader : readers()) {
        if (reader.name == name) {
            return reader;
        }
    }
    throw std::invalid_argument("no reader is named " + name);
}

} // namespace vrid::tests
