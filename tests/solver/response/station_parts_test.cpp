#include "solver/response/station.hpp"

#include <catch2/catch.hpp>

#include "../../random_board.hpp"

using namespace vrid;

TEST_CASE("all points of a part of a station have the part's layers: random boards, bands beside "
          "slanted ends as well") {
    const MaterialLibrary library = load_material_library();
    for (unsigned seed = 0; seed < 60; ++seed) {
        const Board board = tests::random_board(seed, library);
        const Layup<double> layup = make_layup<double>(board);
        for (const double share : {-1.05, -0.9, 0.1, 0.7, 0.99}) {
            const double x = share * board.planform.running_length / 2 + 1e-6;
            double wrong = 0; // width [m]
            for (const StationPart& part : station_parts(layup, x)) {
                constexpr int points = 50;
                const double step = (part.y_to - part.y_from) / points;
                for (int i = 0; i < points; ++i) {
                    const double y = part.y_from + (i + 0.5) * step;
                    wrong += stack_key(layup, {x, y}) == part.key ? 0 : step;
                }
            }
            CAPTURE(seed, x);
            CHECK(wrong < 1e-6);
        }
    }
}
