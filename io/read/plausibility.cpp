#include "io/read/board_problems.hpp"

#include <algorithm>
#include <cmath>

#include "io/materials/design_paths.hpp"
#include "io/toml/accepted.hpp"
#include "io/write/number.hpp"
#include "io/write/units.hpp"
#include "mesh/board/rest_shape.hpp"
#include "mesh/board/same_place.hpp"
#include "solver/cases/cases.hpp"
#include "solver/laminate/micromechanics.hpp"
#include "solver/response/cross_section.hpp"
#include "solver/response/mass.hpp"
#include "solver/shop/cut_pieces.hpp"

namespace vrid {

namespace {

double in_mm(double metres) {
    return from_si("x_mm", metres);
}

// Straight sides only: a rectangle or a polygon, which is a plate of a laboratory.
bool is_coupon(const Planform& planform) {
    return std::ranges::all_of(planform.outline, [](const auto& piece) {
        const Eigen::Vector2d chord = piece.control[3] - piece.control[0];
        const auto aside = [&](const Eigen::Vector2d& point) {
            const Eigen::Vector2d to = point - piece.control[0];
            return std::abs(chord.x() * to.y() - chord.y() * to.x());
        };
        const double straight = 1e-9 * chord.squaredNorm();
        return piece.radius == 0 && aside(piece.control[1]) <= straight &&
               aside(piece.control[2]) <= straight;
    });
}

double fabric_thickness(const Board& board, const Fabric& fabric) {
    double sum = 0;
    for (const FabricPly& ply : fabric.plies) {
        sum += ply.fibre.empty()
                   ? ply.ply_thickness
                   : ply_thickness(ply.areal_weight, board.materials.at(ply.fibre).density,
                                   fabric.fibre_volume_fraction);
    }
    return sum;
}

void judge_layers(Judge& judge) {
    const Board& board = judge.board();
    for (const Layer& layer : board.layers) {
        const std::string path = "layer." + layer.name;
        if (layer.kind == LayerKind::material) {
            judge.hold(Judged::sheet, in_mm(layer.thickness), path + ".thickness_mm", "the sheet");
        } else if (layer.kind == LayerKind::fabric) {
            const double thickness = fabric_thickness(board, board.fabrics.at(layer.fabric));
            judge.hold(Judged::fabric, in_mm(thickness), path + ".fabric", "the layer",
                       " with its resin");
        }
    }
    for (const auto& [name, fabric] : board.fabrics) {
        if (fabric.fibre_volume_fraction > 0) {
            judge.hold(Judged::fibre_fraction, fabric.fibre_volume_fraction,
                       "fabric." + name + ".fibre_volume_fraction", "the fibre volume fraction");
        }
    }
}

void judge_mirror_images(Judge& judge) {
    for (const Layer& layer : judge.board().layers) {
        const bool image = layer.mirror && layer.kind == LayerKind::fabric;
        if (image && !mirror_lies_on_roll(judge.board().fabrics.at(layer.fabric))) {
            judge.say("layer." + layer.name + ".mirror",
                      "the mirror image is computed with every ply of " + layer.fabric +
                          " at the opposite angle, which no piece from its roll has; accepted: a "
                          "layer of its own for the other side, as it is cut");
        }
    }
}

// Names of the material library: of an own material nobody knows what it is for.
void judge_order(Judge& judge) {
    const std::vector<Layer>& layers = judge.board().layers;
    const auto core = std::ranges::find(layers, LayerKind::core, &Layer::kind);
    for (auto layer = layers.begin(); core != layers.end() && layer != layers.end(); ++layer) {
        const std::string path = "layer." + layer->name + ".material";
        const std::string& made_of = layer->material;
        if (layer < core && (made_of == "polyamide" || made_of == "tpu")) {
            judge.say(path, made_of + " lies below the core; it is a top sheet, and layers are "
                                      "listed from the running surface upwards");
        }
        if (layer > core && made_of.starts_with("uhmwpe")) {
            judge.say(path, made_of + " lies above the core; it is a base, and layers are listed "
                                      "from the running surface upwards");
        }
    }
}

void judge_edge(Judge& judge) {
    const Board& board = judge.board();
    const Layer& first = board.layers.front();
    if (!board.edge || first.kind == LayerKind::material) {
        return;
    }
    judge.say("edge", "it replaces the first layer, which is " +
                          std::string(first.kind == LayerKind::core ? "the core" : "a fabric") +
                          " (\"" + first.name + "\"): the board has no base");
}

void judge_core_stations(Judge& judge) {
    const Board& board = judge.board();
    const std::vector<double>& x = board.core->thickness.x;
    const auto [tail, nose] = x_extent(board.planform);
    const double contact = board.planform.running_length / 2;
    const auto name = [](std::size_t i) { return "core.thickness_mm[" + std::to_string(i) + "]"; };
    judge.hold(Judged::beyond_tip, std::max(0.0, in_mm(tail - x.front())), name(0),
               "the station's distance beyond the tail tip");
    judge.hold(Judged::beyond_tip, std::max(0.0, in_mm(x.back() - nose)), name(x.size() - 1),
               "the station's distance beyond the nose tip");
    if (x.size() < 2) { // one thickness for the whole core is meant so
        return;
    }
    // what the core would be beyond the spacer's stations does not matter
    const double from = board.tip_spacer ? std::max(-contact, board.tip_spacer->x[0]) : -contact;
    const double to = board.tip_spacer ? std::min(contact, board.tip_spacer->x[1]) : contact;
    judge.hold(Judged::inside_contact, std::max(0.0, in_mm(x.front() - from)), name(0),
               "the first station's distance from the tail contact line");
    judge.hold(Judged::inside_contact, std::max(0.0, in_mm(to - x.back())), name(x.size() - 1),
               "the last station's distance from the nose contact line");
}

// Half the width between the centre line and the sidewall where the board is widest.
double widest_half_core(const Board& board) {
    const auto [tail, nose] = x_extent(board.planform);
    constexpr int steps = 200;
    double most = 0;
    for (int i = 1; i < steps; ++i) {
        const double x = tail + (nose - tail) * i / steps;
        const auto y = y_extent(board.planform, x);
        const bool wall = board.sidewall && inside(board.sidewall->x, x);
        if (y) {
            most = std::max(most, std::max((*y)[1], -(*y)[0]) - (wall ? board.sidewall->width : 0));
        }
    }
    return most;
}

void judge_strips(Judge& judge, const std::vector<Strip>& strips, const std::string& key) {
    if (strips.size() < 2) { // whatever its width, it fills the core
        return;
    }
    const auto mm = [](double metres) { return number_text(round_significant(in_mm(metres), 4)); };
    const double half = widest_half_core(judge.board());
    double from = 0;
    for (std::size_t i = 0; i < strips.size() && from < half; ++i) {
        const double to = from + strips[i].width;
        const bool last = i + 1 == strips.size();
        if (to > half && !(last && judge.board().core->resolve)) {
            judge.say(key + "[" + std::to_string(i) + "].width_mm",
                      "the strip would reach to " + mm(to) +
                          " mm from the centre line, but the core ends at " + mm(half) +
                          " mm where it is widest" +
                          (last ? "" : "; the strips after it are never used"));
        }
        from = to;
    }
}

void judge_strips(Judge& judge) {
    const Core& core = *judge.board().core;
    const bool alike = core.strips_right.empty();
    judge_strips(judge, core.strips, alike ? "core.strips" : "core.strips_left");
    judge_strips(judge, core.strips_right, "core.strips_right");
}

void judge_outline(Judge& judge) {
    const Planform& planform = judge.board().planform;
    const auto [tail, nose] = x_extent(planform);
    const double running = planform.running_length;
    const std::string path = "planform.running_length_mm";
    constexpr double percent = 100;
    judge.hold(Judged::tip_length, percent * (nose - running / 2) / running, path, "the nose");
    judge.hold(Judged::tip_length, percent * (-tail - running / 2) / running, path, "the tail");
    if (const auto& shape = planform.shape) {
        const double ends = std::min(shape->nose_width, shape->tail_width);
        judge.hold(Judged::waist, percent * shape->waist_width / ends, "planform.waist_width_mm",
                   "the waist's width, of the narrower of nose and tail,");
    }
}

void judge_stance(Judge& judge) {
    const Board& board = judge.board();
    std::string skipped;
    std::string why;
    for (const BenchCase& bench : case_table()) {
        const std::string missing = missing_for(bench, board);
        if (board.stance && bench.needs_feet && !missing.empty()) {
            skipped += (skipped.empty() ? "" : ", ") + bench.info.name;
            why = missing;
        }
    }
    if (!skipped.empty()) {
        judge.say("stance.width_mm", why + ", so these cases are skipped: " + skipped);
    }
}

void judge_sections(Judge& judge) {
    const Board& board = judge.board();
    const MassReport mass = board_mass(board);
    judge.hold(Judged::weight, mass.mass / area(board.planform), "planform",
               "the board's weight for its area");
    const double contact = 0.98 * board.planform.running_length / 2;
    std::vector<double> stations{-contact, 0, contact};
    if (board.stance) {
        stations.insert(stations.end(), {board.stance->rear(), board.stance->front()});
    }
    const Layup<double> layup = make_layup<double>(board);
    std::map<double, double> thickness;
    std::map<double, double> twist_to_bend;
    for (const double x : stations) {
        if (width_at(board.planform, x) > 0) {
            const CrossSection section = cross_section(layup, x);
            thickness[x] = in_mm(section.thickness);
            twist_to_bend[x] = section.GJ / section.EI;
        }
    }
    judge.hold(Judged::total, thickness, board.core ? "core.thickness_mm" : "layer",
               "the board's thickness");
    judge.hold(Judged::twist_to_bend, twist_to_bend, "layer", "GJ over EI");
}

// Curvature is greatest at an end of a piece of the curve, or near it.
void judge_rest_shape(Judge& judge) {
    const Board& board = judge.board();
    const auto rest = rest_shape(board);
    if (!rest) {
        return;
    }
    const auto [tail, nose] = x_extent(board.planform);
    const auto where = [](double x) {
        return " at x = " + number_text(round_significant(in_mm(x), 4)) + " mm";
    };
    const std::string path = "rest_shape.z_mm";
    const Tightest tight = tightest(*rest, tail, nose);
    if (!(tight.radius > 0)) {
        return;
    }
    judge.hold(Judged::rest_radius, in_mm(tight.radius), path, "the smallest radius",
               where(tight.x));
    const Layup<double> layup = make_layup<double>(board);
    double most = 0;
    double at = 0;
    std::vector<double> stations = rest->height.x;
    stations.push_back(tight.x);
    for (const double x : stations) {
        if (x < tail || x > nose || !(width_at(board.planform, x) > 0)) {
            continue;
        }
        const double bend = std::max(std::abs(rest->frame(x, x - same_place).kap),
                                     std::abs(rest->frame(x, x + same_place).kap));
        const double share = bend * cross_section(layup, x).thickness;
        at = share > most ? x : at;
        most = std::max(most, share);
    }
    judge.hold(Judged::rest_thickness, most, path, "the board's thickness over its radius",
               where(at));
}

// A share of nothing: the value stays 0 in every board drawn.
void judge_tolerances(Judge& judge) {
    const Board& board = judge.board();
    const std::vector<std::string> paths = number_paths(board);
    for (const auto& [pattern, entry] : board.tolerance) {
        const std::vector<std::string> meant = covered_paths(pattern, paths);
        const bool zero = entry.percent && !meant.empty() &&
                          std::ranges::all_of(meant, [&](const std::string& path) {
                              const auto found = find_design(board, path);
                              return !found || found->value == 0;
                          });
        if (zero) {
            judge.say("tolerance." + pattern, "a percentage of a value that is 0 gives no scatter");
        }
    }
}

} // namespace

std::vector<Problem> implausible(const Board& board,
                                 const std::map<std::string, std::string>& places) {
    Judge judge(board, places);
    judge_order(judge);
    judge_mirror_images(judge);
    judge_edge(judge);
    judge_tolerances(judge);
    judge_rest_shape(judge);
    const bool coupon = is_coupon(board.planform);
    if (!coupon || board.core) { // a plate of one thick sheet is a coupon too
        judge_layers(judge);
    }
    if (board.core) {
        judge_strips(judge);
    }
    if (!coupon) {
        judge_outline(judge);
        judge_stance(judge);
        judge_sections(judge);
        if (board.core) {
            judge_core_stations(judge);
        }
    }
    return judge.found();
}

} // namespace vrid
