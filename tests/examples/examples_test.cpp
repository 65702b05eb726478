#include <cmath>
#include <filesystem>
#include <fstream>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "io/read/read_board.hpp"
#include "io/write/units.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/mass.hpp"
#include "solver/study.hpp"
#include "tests/places.hpp"

using namespace vrid;
namespace fs = std::filesystem;

namespace {

const fs::path examples = fs::path(source_dir) / "examples";

Board example(const std::string& name) {
    return read_board((examples / name / "board.toml").string(), load_material_library());
}

double stiffness(const Board& board, const std::string& name) {
    StudyOptions options;
    options.cases = {name};
    return run_study(board, options).cases.front().numbers.front().quantity.value;
}

// All glass plies of a fabric at the given angles, the whole fibre weight shared evenly.
Board with_glass_at(Board board, const std::vector<double>& angles) {
    for (auto& [name, fabric] : board.fabrics) {
        if (fabric.plies.size() < 2) {
            continue; // carbon ribbons stay
        }
        double weight = 0;
        for (const FabricPly& ply : fabric.plies) {
            weight += ply.areal_weight;
        }
        std::vector<FabricPly> plies;
        for (const double angle : angles) {
            FabricPly ply = fabric.plies.front();
            ply.angle = angle;
            ply.areal_weight = weight / static_cast<double>(angles.size());
            plies.push_back(ply);
        }
        fabric.plies = plies;
    }
    return board;
}

} // namespace

TEST_CASE(
    "every example board gives the numbers in its expected.json within its printed bars (these "
    "were computed at degree 6, vrid's default is lower)") {
    int count = 0;
    for (const auto& entry : fs::directory_iterator(examples)) {
        if (!fs::exists(entry.path() / "expected.json")) {
            continue;
        }
        ++count;
        const Board board = example(entry.path().filename().string());
        const auto expected = nlohmann::json::parse(std::ifstream(entry.path() / "expected.json"));
        CAPTURE(entry.path().filename().string());
        CHECK(board_mass(board).mass == Approx(expected.at("mass").get<double>()).epsilon(1e-4));
        for (const CaseResult& one : run_study(board, {}).cases) {
            if (!expected.at("cases").contains(one.name)) {
                continue;
            }
            const Quantity& found = one.numbers.front().quantity;
            const double scale = bench_unit(found.unit).per_si;
            CAPTURE(one.name);
            CHECK(std::abs(found.value * scale - expected["cases"][one.name].get<double>()) <=
                  found.error * scale);
        }
    }
    CHECK(count >= 6);
}

TEST_CASE("example boards weigh 2.2 to 3.3 kg and are 5 to 11 mm thick between the feet") {
    for (const std::string name :
         {"nh-157-querwind", "nh-157-biax", "nh-161-lattenzaun", "nh-154-kieselbach"}) {
        const Board board = example(name);
        const double mass = board_mass(board).mass;
        CAPTURE(name);
        CHECK(mass > 2.2);
        CHECK(mass < 3.3);
        for (int k = 0; k <= 10; ++k) {
            const double x =
                board.stance->rear() + k / 10.0 * (board.stance->front() - board.stance->rear());
            const double thickness = cross_section(board, x).thickness;
            CHECK(thickness > 5e-3);
            CHECK(thickness < 11e-3);
        }
    }
}

TEST_CASE(
    "trade (common practice, no source): at equal fibre weight glass at +-45 raises the twist "
    "stiffness and glass at 0/90 lowers it") {
    const Board board = example("nh-157-querwind");
    const double quarter = std::atan(1.0);
    const Board diagonal = with_glass_at(board, {quarter, -quarter});
    const Board square = with_glass_at(board, {0, 2 * quarter});
    for (const std::string name : {"nose-twist", "stance-twist", "full-twist"}) {
        CAPTURE(name);
        const double drawn = stiffness(board, name);
        CHECK(stiffness(diagonal, name) > 1.03 * drawn);
        CHECK(stiffness(square, name) < 0.97 * drawn);
    }
}

TEST_CASE(
    "trade (common practice, no source): a core thinned under the feet moves the curvature there") {
    const Board board = example("nh-157-querwind");
    Board thinned = board;
    auto& profile = thinned.core->thickness;
    for (std::size_t i = 0; i < profile.x.size(); ++i) {
        for (const double foot : {board.stance->front(), board.stance->rear()}) {
            if (std::abs(profile.x[i] - foot) < 0.02) {
                profile.value[i] *= 0.8;
            }
        }
    }
    // Share of the bend between the contact lines that happens within 60 mm of the front foot,
    // from the deflection lines of the centre-flex case.
    const auto share = [](const Board& one) {
        StudyOptions options;
        options.cases = {"centre-flex"};
        const StudyResult result = run_study(one, options);
        const auto& lines = result.mesh.lines;
        const auto& w = result.cases.front().deflection;
        const auto slope_near = [&](double x) {
            std::size_t i = 0;
            while (i + 2 < lines.size() && lines[i + 1].x < x) {
                ++i;
            }
            return (w[i + 1] - w[i]) / (lines[i + 1].x - lines[i].x);
        };
        const double foot = one.stance->front();
        const double end = one.planform.running_length / 2;
        return (slope_near(foot + 0.06) - slope_near(foot - 0.06)) /
               (slope_near(end - 0.01) - slope_near(-end + 0.01));
    };
    CHECK(share(thinned) > 1.2 * share(board));
}
