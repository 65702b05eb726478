// Exact derivatives, held against full solves of changed boards and against identities.
#include <cmath>
#include <numeric>

#include <catch2/catch.hpp>

#include "io/write/number_name.hpp"
#include "solver/design/plain_numbers.hpp"
#include "solver/response/mass.hpp"
#include "tests/solver/design/example_boards.hpp"

using namespace vrid;
using namespace vrid::tests;
using Kind = NumberId::Kind;

namespace {

constexpr int low_degree = 2; // derivatives are those of the discrete board: any degree will do

std::vector<NumberId> all_but_edge(const Board& board) {
    std::vector<NumberId> all = plain_requests(board);
    all.push_back(request(Kind::EI, 0.05));
    all.push_back(request(Kind::GJ, -0.05));
    all.push_back(request(Kind::thickness, 0));
    return all;
}

// Numbers of changed boards on the mesh of the first.
class OneMesh {
  public:
    OneMesh(const Board& board, std::vector<NumberId> requests, NumbersOptions options)
        : board_(board), requests_(std::move(requests)), options_(std::move(options)) {
        exact = board_numbers(board, requests_, options_);
        options_.prepared = exact.prepared;
        options_.edge_prepared = exact.edge_prepared;
        options_.slopes = false;
    }

    // Central differences with steps h and 2 h, the error of order h^2 taken out.
    Eigen::VectorXd differences(const DesignValue& value, double h) {
        const auto step = [&](double size) -> Eigen::VectorXd {
            return (numbers(value, size) - numbers(value, -size)) / (2 * size);
        };
        return (4 * step(h) - step(2 * h)) / 3;
    }

    BoardNumbers exact;

  private:
    Eigen::VectorXd numbers(const DesignValue& value, double by) {
        Eigen::VectorXd moved(1);
        moved(0) = value.value + by;
        const BoardNumbers found =
            board_numbers(with_values(board_, {{value.id}, moved}, library()), requests_, options_);
        Eigen::VectorXd all(static_cast<Eigen::Index>(found.numbers.size()));
        for (Eigen::Index k = 0; k < all.size(); ++k) {
            all(k) = found.numbers[static_cast<std::size_t>(k)].quantity.value;
        }
        return all;
    }

    const Board& board_;
    std::vector<NumberId> requests_;
    NumbersOptions options_;
};

// Both sides of every derivative. Solves agree to about 1e-10 of a number, which a step of a few
// thousandths shows as some 1e-8 of number over value: derivatives below a tenth of number over
// value are held to that instead of themselves.
void check_values(OneMesh& one, const Board& board, const std::vector<std::size_t>& which,
                  double step, double accuracy, double of_modes = 0) {
    const std::vector<DesignValue> values = design_board(board).values;
    for (const std::size_t i : which) {
        const DesignValue& value = values[i];
        if (value.kind().property == DesignProperty::resin && value.value == 0) {
            continue; // no board has less than none
        }
        const double size = value.value == 0 ? 1 : std::abs(value.value);
        // neighbouring stations that are nearly level make a kink of the smooth profile close by
        const bool station = value.kind().property == DesignProperty::core_thickness;
        const Eigen::VectorXd found = one.differences(value, (station ? 0.4 : 1) * step * size);
        for (std::size_t k = 0; k < one.exact.numbers.size(); ++k) {
            const BoardNumber& number = one.exact.numbers[k];
            const auto at = static_cast<Eigen::Index>(k);
            const double exact = number.slope(static_cast<Eigen::Index>(i));
            const double floor = 0.1 * std::max(std::abs(number.quantity.value), 1e-3) / size;
            INFO(path_of(value.id) << " " << number_name(number.request));
            const bool mode = number.request.kind == Kind::mode && of_modes > 0;
            CHECK(std::abs(exact - found(at)) <=
                  (mode ? of_modes : accuracy) * std::max(std::abs(exact), floor));
        }
    }
}

// Some design values that stay on a mesh, others for every seed.
std::vector<std::size_t> some_of(const Board& board, unsigned seed, std::size_t count) {
    std::vector<std::size_t> all(design_board(board).values.size());
    std::iota(all.begin(), all.end(), std::size_t(0));
    const std::vector<DesignValue> values = design_board(board).values;
    std::erase_if(all, [&](std::size_t i) { return values[i].kind().moves_lines; });
    std::mt19937 random(seed);
    std::shuffle(all.begin(), all.end(), random);
    all.resize(std::min(count, all.size()));
    return all;
}

bool is_modulus(const DesignValue& value) {
    return range_of(value.kind()).starts_with("material.E") ||
           range_of(value.kind()).starts_with("material.G");
}

// sum p dr/dp over all E and G.
double euler(const std::vector<DesignValue>& values, const BoardNumber& number) {
    double sum = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (is_modulus(values[i])) {
            sum += values[i].value * number.slope(static_cast<Eigen::Index>(i));
        }
    }
    return sum;
}

} // namespace

// On a rest shape membrane and bending are one, and frequencies of free boards agree to 1e-9 only.
TEST_CASE("derivatives of all numbers are those of full solves of changed boards, to 1e-6 (of "
          "modes on a rest shape 1e-5)") {
    const auto [name, seed, flat] =
        GENERATE(std::tuple{"nh-157-querwind", 1U, false}, std::tuple{"nh-157-querwind", 1U, true},
                 std::tuple{"nh-161-lattenzaun", 2U, false},
                 std::tuple{"coupon-sandwich", 3U, false}, std::tuple{"coupon-triax", 4U, false});
    const Board board = shaken(example(name), seed);
    NumbersOptions options;
    options.degree = low_degree;
    options.max_size = 0.15;
    options.flat = flat;
    OneMesh one(board, all_but_edge(board), options);
    const bool coupon = std::string(name).starts_with("coupon");
    check_values(one, board, some_of(board, seed, coupon ? 12 : 4), 5e-3, 1e-6,
                 flat || coupon ? 0 : 1e-5);
}

TEST_CASE("the mass has its bar among the numbers of a board, with and without a mesh") {
    const Board board = example("nh-157-biax");
    const BoardNumbers found = board_numbers(board, {request(Kind::mass)}, {});
    const Quantity mass = found.numbers.front().quantity;
    CHECK(mass.error == Approx(1e-4 * mass.value));
    CHECK(plain_number(board, request(Kind::mass)).error == mass.error);
}

TEST_CASE("a core station that is level with its neighbour has the mean of both sides' slopes") {
    Board board = example("coupon-sandwich");
    REQUIRE(board.core);
    board.core->thickness = {
        Interpolation::smooth, {-0.1, -0.05, 0, 0.05, 0.1}, {6e-3, 6e-3, 5e-3, 4e-3, 4e-3}};
    NumbersOptions options;
    options.degree = low_degree;
    OneMesh one(board, {request(Kind::GJ, 0.03), request(Kind::EI, -0.07)}, options);
    // a central difference has an error of order h at a kink; one side alone would be wrong by half
    check_values(one, board, {1, 2, 3, 4, 5}, 2.5e-5, 1e-3);
}

TEST_CASE("edge results' derivatives are those of full solves, the points in contact held") {
    const Board board = shaken(example("nh-157-querwind"), 3);
    std::vector<NumberId> requests;
    for (const char* name :
         {"peak", "contact_length", "effective_length", "share_nose", "share_middle", "loss_nose",
          "loss_tail", "loss_nose_twist", "loss_tail_twist", "loss_nose_across", "loss_mean",
          "max_depth", "turn_radius", "roll_moment_front", "roll_moment_rear"}) {
        requests.push_back(edge_request(name));
    }
    NumbersOptions options;
    options.degree = low_degree;
    options.max_size = 0.08;
    options.edge = {Side::right, 0.9, 900, 2e9, 0.6, SnowLaw::volume};
    OneMesh one(board, requests, options);
    // Newton leaves 1e-10 of the load, which a step of 1e-4 shows as 1e-6; points that come into
    // contact on the way add their own
    check_values(one, board, some_of(board, 6, 3), 1e-4, 2e-4);
}

TEST_CASE("a board of twice the moduli is twice as stiff: Euler's theorem for the derivatives") {
    const Board board = shaken(example("nh-154-kieselbach"), 7);
    NumbersOptions options;
    options.degree = low_degree;
    const std::vector<DesignValue> values = design_board(board).values;
    for (const BoardNumber& number : board_numbers(board, all_but_edge(board), options).numbers) {
        const Kind kind = number.request.kind;
        const bool stiffness = kind == Kind::bench_case || kind == Kind::EI || kind == Kind::GJ;
        const double power = stiffness ? 1 : kind == Kind::mode ? 0.5 : 0;
        const double value = number.quantity.value;
        INFO(number_name(number.request));
        CHECK(std::abs(euler(values, number) - power * value) <= 1e-7 * std::abs(value));
    }
}

TEST_CASE("moduli, snow and load twice as large leave the board where it is: Euler on the edge") {
    const Board board = shaken(example("nh-157-biax"), 8);
    NumbersOptions options;
    options.degree = low_degree;
    options.edge = {Side::left, 0.8, 800, 0.5e9, 0.5, SnowLaw::volume};
    options.flat = GENERATE(true, false);
    std::vector<NumberId> requests{edge_request("peak"), edge_request("loss_nose"),
                                   edge_request("effective_length"),
                                   edge_request("roll_moment_front")};
    OneMesh one(board, requests, options);
    NumbersOptions more = options;
    more.slopes = false;
    more.edge_prepared = one.exact.edge_prepared;
    const double h = 1e-4;
    const auto scaled = [&](double by) {
        more.edge.force = options.edge.force * (1 + by);
        more.edge.hardness = options.edge.hardness * (1 + by);
        return board_numbers(board, requests, more);
    };
    const BoardNumbers up = scaled(h);
    const BoardNumbers down = scaled(-h);
    const std::vector<DesignValue> values = design_board(board).values;
    for (std::size_t k = 0; k < requests.size(); ++k) {
        const BoardNumber& number = one.exact.numbers[k];
        const double rest =
            (up.numbers[k].quantity.value - down.numbers[k].quantity.value) / (2 * h);
        const bool force = k == 0 || k == 3; // the others are geometry
        const double expected = force ? number.quantity.value : 0;
        INFO(number_name(number.request));
        CHECK(std::abs(euler(values, number) + rest - expected) <=
              1e-5 * std::abs(number.quantity.value));
    }
}

TEST_CASE("where to sand adds up to what all stations together do") {
    const Board board = example("nh-157-querwind");
    NumbersOptions options;
    options.degree = low_degree;
    options.densities = true;
    NumberId twist = request(Kind::bench_case);
    twist.bench_case = "nose-twist";
    const BoardNumbers found = board_numbers(board, {twist}, options);
    const CoreDensity& field = found.densities.front();
    const PlateModel model = [&] {
        const Layup<double> layup = make_layup<double>(board);
        SectionCache sections(layup);
        return make_model(*field.mesh, field.degree, sections);
    }();
    double sum = 0;
    for (int quad = 0; quad < static_cast<int>(field.mesh->quads.size()); ++quad) {
        const ElementTables tables = element_tables(model.reference, element_nodes(model, quad));
        for (int c = 0; c < model.reference.m; ++c) {
            sum += tables.weight(c) * field.density(Eigen::Index(quad) * model.reference.m + c, 0);
        }
    }
    double stations = 0;
    const std::vector<DesignValue> values = design_board(board).values;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (values[i].kind().property == DesignProperty::core_thickness) {
            stations += found.numbers.front().slope(static_cast<Eigen::Index>(i));
        }
    }
    CHECK(sum == Approx(stations).epsilon(1e-9));
}

TEST_CASE("the balance point of a board with a mirror image lies on its axis, and stays there") {
    const Board board = example("nh-157-querwind");
    NumbersOptions options;
    options.slopes = true;
    const BoardNumbers found =
        board_numbers(board, {request(Kind::balance_x), request(Kind::balance_y)}, options);
    CHECK(found.numbers[1].quantity.value == 0);
    CHECK(found.numbers[1].slope.isZero(0));
    CHECK(found.numbers[0].slope.cwiseAbs().maxCoeff() > 0);
    const Board strip = example("coupon-sandwich"); // its own mirror image in x too
    CHECK(board_mass(strip).x == 0);
}
