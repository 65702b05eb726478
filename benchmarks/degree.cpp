// What degree and mesh size buy: all bench cases of a board at several settings, with seconds by
// phase, the widest error bar, and the true error against the finest setting of the same run.
// Arguments: a board file (default: the example NH-157).

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>

#include "io/read/read_board.hpp"
#include "solver/study.hpp"

namespace {

struct Worst {
    double bar = 0, error = 0;
};

Worst worst(const vrid::StudyResult& result, const vrid::StudyResult& finest) {
    Worst most;
    for (std::size_t i = 0; i < result.cases.size(); ++i) {
        if (result.cases[i].numbers.empty()) {
            continue;
        }
        const vrid::Quantity& found = result.cases[i].numbers.front().quantity;
        const double exact = finest.cases[i].numbers.front().quantity.value;
        most.bar = std::max(most.bar, found.error / found.value);
        most.error = std::max(most.error, std::abs(found.value / exact - 1));
    }
    return most;
}

} // namespace

int main(int count, char** words) {
    const std::string path =
        count > 1 ? words[1]
                  : std::string(VRID_SOURCE_DIR) + "/examples/nh-157-querwind/board.toml";
    const vrid::Board board = vrid::read_board(path, vrid::load_material_library());
    const auto run = [&](int degree, double size) {
        vrid::StudyOptions options;
        options.degree = degree;
        options.max_size = size;
        return vrid::run_study(board, options);
    };
    const vrid::StudyResult finest = run(6, 0.04);
    std::printf("%s\n", board.name.c_str());
    std::printf(
        "degree  size  quads  unknowns  mesh  sections  assemble  factor  solve  total [s]  "
        "widest bar [%%]  worst error [%%]\n");
    for (const double size : {0.12, 0.08, 0.05}) {
        for (int degree = 2; degree <= 5; ++degree) {
            const vrid::StudyResult result = run(degree, size);
            double total = 0;
            for (const auto& [phase, seconds] : result.seconds) {
                total += seconds;
            }
            const auto& s = result.seconds;
            const Worst most = worst(result, finest);
            std::printf("%6d %5.0f %6zu %9d %5.3f %9.3f %9.3f %7.3f %6.3f %10.3f %15.4f %16.4f\n",
                        degree, size * 1e3, result.mesh.quads.size(), result.unknowns, s.at("mesh"),
                        s.at("sections"), s.at("assemble"), s.at("factor"), s.at("solve"), total,
                        most.bar * 100, most.error * 100);
        }
    }
}
