// The plies that strength judges against those that the laminate is made of.
#include "solver/strength/judged_ply.hpp"

#include <algorithm>

#include <catch2/catch.hpp>

#include "tests/io/demo_board.hpp"

using namespace vrid;

TEST_CASE(
    "every ply is judged in the axes in which it lies: turned rolls, mirror images, ribbons of "
    "one layer that run in different directions") {
    Board board = tests::demo();
    Layer& ribbon = *std::ranges::find(board.layers, "ribbon", &Layer::name);
    REQUIRE(ribbon.mirror);
    Zone other;
    other.ribbon = Ribbon{{-0.4, 0.01}, {0.4, 0.09}, 0.02};
    ribbon.more_zones.push_back(other);
    const Layup<double> layup = make_layup<double>(board);
    const JudgedLayup judged = judged_layup(layup);
    REQUIRE(judged.items.size() == layup.items.size());
    int ribbons = 0;
    for (std::size_t i = 0; i < layup.items.size(); ++i) {
        const LayupItem<double>& item = layup.items[i];
        CAPTURE(item.name, item.angle);
        ribbons += item.layer == &ribbon ? 1 : 0;
        REQUIRE(judged.items[i].size() == item.plies.size());
        for (std::size_t k = 0; k < item.plies.size(); ++k) {
            const JudgedPly& ply = judged.items[i][k];
            const Lamina<double>& lies = item.plies[k];
            const Eigen::Matrix3d Qbar = lamina(ply.ply, ply.angle, lies.thickness).Qbar;
            CHECK((Qbar - lies.Qbar).norm() < 1e-12 * lies.Qbar.norm());
        }
    }
    CHECK(ribbons == 4);
}
