#include <cmath>
#include <fstream>

#include "benchmarks/measure/parts.hpp"
#include "benchmarks/measure/runs.hpp"
#include "tests/lot_example.hpp"
#include "tests/planted_lots.hpp"

namespace vrid::measure {

namespace {

constexpr int boards = 100000;

// The columns of lot_example, in their file's units.
constexpr const char* columns =
    "serial,mass,thickness@0,centre-flex,nose-twist,tail-twist,free-modes mode 1,free-modes mode 2";

void write_readings(const Means& means, const std::string& path) {
    const LotModel model = lot_example(means.sources);
    PlantedLot lot;
    lot.boards = boards;
    const LotReadings readings = planted_lot(model, lot, 1);
    const double degree = M_PI / 180;
    const double per_si[]{1, 1e3, 1e-3, degree, degree, 1, 1};
    std::ofstream file(path);
    file << columns << '\n';
    file.precision(7);
    for (int board = 0; board < boards; ++board) {
        file << "B" << board;
        for (int k = 0; k < readings.value.rows(); ++k) {
            file << ',';
            if (readings.count(k, board) > 0) {
                file << readings.value(k, board) * per_si[k];
            }
        }
        file << '\n';
    }
}

} // namespace

std::vector<Row> lot_rows(const Means& means) {
    const std::string path = means.folder + "/readings.csv";
    write_readings(means, path);
    std::vector<double> wall;
    for (int round = 0; round < 3; ++round) {
        const ProgramRun run =
            run_program({means.vrid, "lot", means.example("nh-157-querwind"), path, "--rig",
                         means.sources + "/examples/plant-lot/rig.toml"});
        if (run.status != 0 && run.status != 1) {
            return {not_here(7, "vrid lot of 1e5 boards, on the wall", "at most 10 s",
                             means.vrid + " does not run")};
        }
        wall.push_back(run.wall);
    }
    return {at_most(7, "vrid lot of 1e5 boards, seven readings, on the wall", wall, 10, "s")};
}

} // namespace vrid::measure
