#include "io/read/read_hardware.hpp"

#include <algorithm>
#include <cmath>

#include "io/materials/read_material.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/rest_shape.hpp"

namespace vrid {

namespace {

// The narrowest width in the middle half of the running length: two bands wider than this would
// meet there. Tips are left out; bands always meet in them. [m]
double narrowest_middle(const Planform& planform) {
    constexpr int steps = 40;
    double least = width_at(planform, 0);
    for (int i = 0; i <= steps; ++i) {
        const double x = planform.running_length * (0.5 * i / steps - 0.25);
        least = std::min(least, width_at(planform, x));
    }
    return least;
}

void check_band(TableReader& table, double width, const Stock& stock) {
    if (stock.planform == nullptr) {
        return;
    }
    const double most = narrowest_middle(*stock.planform) / 2;
    if (most > 0 && width >= most) {
        table.wrong("width_mm", "with its flange, if any, less than half the width of the board, " +
                                    number_text(from_si("width_mm", most)) + " (mm)");
    }
}

Edge read_edge(TableReader table, const Stock& stock) {
    Edge edge;
    edge.material = read_name(table, "material", stock.materials, "material");
    edge.width = table.number("width_mm");
    edge.x = read_board_range(table, stock);
    double band = edge.width;
    if (auto flange = table.table_if("flange")) {
        edge.flange = Flange{flange->number("width_mm"), flange->number("thickness_mm"),
                             flange->number_or_default("fill")};
        flange->finish();
        band += edge.flange->width;
    }
    check_band(table, band, stock);
    table.finish();
    return edge;
}

Sidewall read_sidewall(TableReader table, const Stock& stock) {
    Sidewall sidewall;
    sidewall.material = read_name(table, "material", stock.materials, "material");
    sidewall.width = table.number("width_mm");
    sidewall.x = read_board_range(table, stock);
    check_band(table, sidewall.width, stock);
    table.finish();
    return sidewall;
}

std::optional<TipSpacer> read_tip_spacer(TableReader table, const Stock& stock) {
    TipSpacer spacer;
    spacer.material = read_name(table, "material", stock.materials, "material");
    if (!table.has("x_mm")) {
        table.wrong("x_mm", "the two stations [tail, nose] beyond which the spacer begins");
    }
    spacer.x = table.range_if("x_mm").value_or(Range{});
    table.finish();
    return spacer;
}

bool foot_on_board(const Planform& planform, const Stance& stance, double middle) {
    for (const double x : {middle - stance.foot_length / 2, middle + stance.foot_length / 2}) {
        for (const double y : {-stance.foot_width / 2, stance.foot_width / 2}) {
            if (!contains(planform, {x, y})) {
                return false;
            }
        }
    }
    return true;
}

Stance read_stance(TableReader table, const Stock& stock) {
    Stance stance;
    stance.width = table.number("width_mm");
    stance.setback = table.number_or_default("setback_mm");
    stance.foot_length = table.number("foot_length_mm");
    stance.foot_width = table.number("foot_width_mm");
    if (stance.width <= stance.foot_length) {
        table.wrong("width_mm", "more than foot_length_mm: the feet overlap");
    }
    const double all = stance.width + stance.setback + stance.foot_length + stance.foot_width;
    if (stock.planform != nullptr && std::isfinite(all)) {
        if (!foot_on_board(*stock.planform, stance, stance.front())) {
            table.wrong("width_mm", "a stance whose front foot patch lies on the board");
        }
        if (!foot_on_board(*stock.planform, stance, stance.rear())) {
            table.wrong("width_mm", "a stance whose rear foot patch lies on the board");
        }
    }
    table.finish();
    return stance;
}

MassOnly read_mass_only(TableReader table, bool has_stance) {
    MassOnly mass;
    mass.resin = table.number_or_default("resin_gsm");
    mass.inserts_per_foot = table.whole_number_or("inserts_per_foot", 0);
    mass.insert_mass = table.number_or("insert_mass_g", 0);
    if (table.has("inserts_per_foot") != table.has("insert_mass_g")) {
        table.problem(table.has("insert_mass_g") ? "insert_mass_g" : "inserts_per_foot",
                      "inserts_per_foot and insert_mass_g must be given together");
    }
    if (mass.inserts_per_foot > 0 && !has_stance) {
        table.problem("inserts_per_foot", "inserts lie in the foot patches: [stance] is missing");
    }
    table.finish();
    return mass;
}

bool rising_numbers(const Profile& shape) {
    const bool rising = std::adjacent_find(shape.x.begin(), shape.x.end(), [](double a, double b) {
                            return !(b > a);
                        }) == shape.x.end();
    return rising && std::all_of(shape.value.begin(), shape.value.end(),
                                 [](double z) { return std::isfinite(z); });
}

// Stations are along the surface: a rise of more than their distance is impossible, and where it is
// nearly as much, the surface stands upright.
bool refuse_steep(TableReader& table, const Profile& shape) {
    constexpr double upright = 0.95;
    const Steepest found = steepest(shape);
    if (found.slope < upright) {
        return false;
    }
    table.problem("z_mm", "the height changes by " + significant(found.slope, 3) +
                              " of the length along the board near x = " +
                              significant(from_si("x_mm", found.x), 4) +
                              " mm; accepted: less than " + significant(upright, 2));
    return true;
}

// Before its first and behind its last station the surface lies level unless it rises there: a
// curve that ends steeply inside the board, falling outwards, would be folded.
void refuse_fold(TableReader& table, const Profile& shape, const Planform* planform) {
    constexpr double sharpest = 0.1;  // of slope; camber that ends at the contact lines has 0.02
    constexpr double near_tip = 0.01; // [m]
    if (planform == nullptr) {
        return; // told already
    }
    const RestShape rest{shape, smooth_slopes(shape)};
    const auto [tail, nose] = x_extent(*planform);
    const double middle = (shape.x.front() + shape.x.back()) / 2;
    for (const double x : {shape.x.front(), shape.x.back()}) {
        const double fold = std::abs(rest.frame(x, middle).S - rest.frame(x, 2 * x - middle).S);
        if (x > tail + near_tip && x < nose - near_tip && fold > sharpest) {
            table.problem("z_mm", "the surface falls to the station " +
                                      significant(from_si("x_mm", x), 4) +
                                      " mm and lies level beyond it, which makes a kink of slope " +
                                      significant(fold, 2) +
                                      "; accepted: a last height near the tip, or a slope "
                                      "below " +
                                      significant(sharpest, 1));
        }
    }
}

Profile read_rest_shape(TableReader table, const Planform* planform) {
    Profile shape;
    for (const Eigen::Vector2d& station : table.stations("z_mm")) {
        shape.x.push_back(station.x());
        shape.value.push_back(station.y());
    }
    if (shape.x.size() > 1 && rising_numbers(shape) && !refuse_steep(table, shape)) {
        refuse_fold(table, shape, planform);
    }
    table.finish();
    return shape;
}

} // namespace

void read_hardware(Board& board, TableReader& root, const Stock& stock) {
    const bool core = std::any_of(board.layers.begin(), board.layers.end(),
                                  [](const Layer& layer) { return layer.kind == LayerKind::core; });
    for (const std::string_view part : {"tip_spacer", "sidewall"}) {
        if (root.has(part) && !core) {
            root.problem(part, "it replaces the core, but no layer has core = true");
        }
    }
    if (auto table = root.table_if("tip_spacer")) {
        board.tip_spacer = read_tip_spacer(*std::move(table), stock);
    }
    if (auto table = root.table_if("edge")) {
        board.edge = read_edge(*std::move(table), stock);
    }
    if (auto table = root.table_if("sidewall")) {
        board.sidewall = read_sidewall(*std::move(table), stock);
    }
    if (auto table = root.table_if("stance")) {
        board.stance = read_stance(*std::move(table), stock);
    }
    if (auto table = root.table_if("mass_only")) {
        board.mass_only = read_mass_only(*std::move(table), root.has("stance"));
    }
    if (auto table = root.table_if("rest_shape")) {
        board.rest_shape = read_rest_shape(*std::move(table), stock.planform);
    }
}

} // namespace vrid
