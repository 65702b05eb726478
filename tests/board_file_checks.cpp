#include "board_file_checks.hpp"

#include <cmath>
#include <fstream>

#include "io/read/read_board.hpp"
#include "mesh/board/outline_piece.hpp"
#include "solver/laminate/layup.hpp"

namespace vrid::tests {

namespace {

using Eigen::Vector2d;

// Even-odd by chords of the outline: shares nothing with the crossings of planform_measure.
class Inside {
  public:
    explicit Inside(const Planform& planform) {
        for (const OutlinePiece& piece : planform.outline) {
            const std::vector<double> t = flat_parameters(piece, 2e-5);
            for (std::size_t i = 0; i + 1 < t.size(); ++i) {
                loop_.push_back(point_at(piece, t[i]));
            }
        }
    }
    bool operator()(const Vector2d& p) const {
        bool inside = false;
        for (std::size_t i = 0, k = loop_.size() - 1; i < loop_.size(); k = i++) {
            const Vector2d& a = loop_[i];
            const Vector2d& b = loop_[k];
            if ((a.y() > p.y()) != (b.y() > p.y()) &&
                p.x() < a.x() + (p.y() - a.y()) / (b.y() - a.y()) * (b.x() - a.x())) {
                inside = !inside;
            }
        }
        return inside;
    }
    [[nodiscard]] const std::vector<Vector2d>& loop() const { return loop_; }

  private:
    std::vector<Vector2d> loop_;
};

} // namespace

Board read_file(const RandomBoardFile& file, const std::string& folder,
                const MaterialLibrary& library) {
    if (!file.csv.empty()) {
        std::ofstream(folder + "/outline.csv") << file.csv;
    }
    return read_board_text({file.toml, "board.toml", folder}, library);
}

std::vector<std::string> not_finite(const BoardFigures& figures) {
    std::vector<std::string> bad;
    const auto look = [&](const std::string& name, double value) {
        if (!std::isfinite(value)) {
            bad.push_back(name);
        }
    };
    const OutlineFigures& o = figures.outline;
    for (const double value : {o.length, o.running_length, o.tail_width, o.waist_width,
                               o.nose_width, o.waist_x, o.area}) {
        look("outline", value);
    }
    for (const double radius : o.sidecut_radius) {
        look("sidecut radius", std::isinf(radius) && radius > 0 ? 0 : radius);
    }
    for (const double value : {figures.mass.mass, figures.mass.x, figures.mass.y}) {
        look("mass", value);
    }
    for (const MassItem& item : figures.mass.by_material) {
        look("mass of " + item.name, item.mass);
    }
    for (const StationFigures& station : figures.stations) {
        const CrossSection& s = station.section;
        for (const double value :
             {s.x, s.width, s.core_thickness, s.thickness, s.mass_per_length, s.EI, s.GJ}) {
            look("section at " + station.label, value);
        }
        for (const LayerAcross& layer : station.layers) {
            look("layer " + layer.name, layer.angle + layer.thickness);
        }
    }
    return bad;
}

double mass_by_points(const Board& board) {
    const Layup<double> layup = make_layup<double>(board);
    const Inside inside(board.planform);
    Vector2d low = inside.loop().front();
    Vector2d high = low;
    for (const Vector2d& p : inside.loop()) {
        low = low.cwiseMin(p);
        high = high.cwiseMax(p);
    }
    constexpr int columns = 450; // an end cut square has bands of edge and sidewall along a column
    constexpr int rows = 40;
    const Vector2d cell = (high - low).cwiseQuotient(Vector2d(columns, rows));
    double mass = 0;
    std::map<std::pair<StackKey, double>, double> known; // mass per area by stack and core
    for (int i = 0; i < columns; ++i) {
        const double x = low.x() + cell.x() * (i + 0.5);
        for (int k = 0; k < rows; ++k) {
            // each column's points are shifted, so that no border runs along the points
            const double shift = std::fmod(0.618033988749895 * i, 1.0);
            const Vector2d p(x, low.y() + cell.y() * (k + shift));
            if (!inside(p)) {
                continue;
            }
            const double core = core_thickness(layup, p);
            auto [found, fresh] = known.try_emplace({stack_key(layup, p), core}, 0);
            if (fresh) {
                for (const Lamina<double>& lamina :
                     stack_laminae(layup, found->first.first, core)) {
                    found->second += lamina.thickness * lamina.density;
                }
            }
            mass += found->second * cell.x() * cell.y();
        }
    }
    return mass;
}

} // namespace vrid::tests
