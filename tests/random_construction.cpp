#include "random_construction.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "chance.hpp"

namespace vrid::tests {

namespace {

class Construction {
  public:
    Construction(Board& board, unsigned seed) : board_(board), chance_(seed + 77000) {
        for (const auto& [name, material] : board.materials) {
            materials_.push_back(name);
        }
        const auto [tail, nose] = x_extent(board.planform);
        x_ = {tail, nose};
        half_ = width_at(board.planform, (tail + nose) / 2) / 2;
    }

    void draw() {
        if (board_.core) {
            core(*board_.core);
        }
        for (int k = chance_.count(1, 2); k > 0; --k) {
            patch(k);
        }
    }

  private:
    void core(Core& core) {
        if (chance_.with(0.5)) {
            Profile cross;
            cross.interpolation = Interpolation::linear;
            const double from = half_ * chance_.between(0.3, 0.7);
            const double to = half_ * chance_.between(0.8, 1.1);
            const double left = chance_.between(-0.4, 0.2) * thinnest();
            const double right = chance_.with(0.5) ? left : chance_.between(-0.4, 0.2) * thinnest();
            cross.x = {-to, -from, from, to};
            cross.value = {right, 0, 0, left};
            core.cross = cross;
        }
        if (chance_.with(0.5)) {
            core.strips_right = core.strips;
            core.strips_right.front().width *= chance_.between(0.6, 1.6);
            core.strips_right.back().material = chance_.one_of(materials_);
        }
        Strip& last = core.strips.back();
        if (chance_.with(0.4)) {
            last.x = along();
            last.fill = chance_.one_of(materials_);
        }
    }

    [[nodiscard]] double thinnest() const {
        const std::vector<double>& t = board_.core->thickness.value;
        return *std::min_element(t.begin(), t.end());
    }

    Range along() {
        const double middle = (x_[0] + x_[1]) / 2;
        const double reach = (x_[1] - x_[0]) / 2;
        return {middle - chance_.between(0.1, 0.7) * reach,
                middle + chance_.between(0.1, 0.7) * reach};
    }

    // Corners round a middle, each farther round than the last: no two sides cross.
    std::vector<Eigen::Vector2d> corners(const Eigen::Vector2d& middle, double radius) {
        const int count = chance_.count(3, 6);
        const double first = chance_.between(0, 2 * std::numbers::pi);
        std::vector<Eigen::Vector2d> found;
        for (int i = 0; i < count; ++i) {
            const double angle =
                first + 2 * std::numbers::pi * (i + chance_.between(0, 0.5)) / count;
            found.push_back(middle + radius * chance_.between(0.6, 1) *
                                         Eigen::Vector2d(std::cos(angle), std::sin(angle)));
        }
        return found;
    }

    void patch(int number) {
        Layer layer;
        layer.name = "drawn " + std::to_string(number);
        layer.material = chance_.one_of(materials_);
        layer.thickness = chance_.between(2e-4, 8e-4);
        const double radius = half_ * chance_.between(0.2, 0.45);
        const Eigen::Vector2d middle(chance_.between(0.7 * x_[0], 0.7 * x_[1]),
                                     chance_.between(-0.9, 0.9) * half_);
        layer.zone.polygon = corners(middle, radius);
        if (chance_.with(0.5)) {
            Zone more;
            more.x = along();
            const double y = chance_.between(-half_, 0.6 * half_);
            more.y = Range{y, y + chance_.between(0.1, 0.4) * half_};
            layer.more_zones.push_back(more);
        }
        layer.mirror = std::abs(middle.y()) > radius && layer.more_zones.empty();
        if (board_.core && chance_.with(0.6)) {
            layer.inlay = true;
            layer.thickness = std::min(layer.thickness, 0.2 * thinnest());
        }
        const auto at = chance_.count(0, static_cast<int>(board_.layers.size()));
        board_.layers.insert(board_.layers.begin() + at, layer);
    }

    Board& board_;
    Chance chance_;
    std::vector<std::string> materials_;
    Range x_{};
    double half_ = 0;
};

} // namespace

Board random_construction(Board board, unsigned seed) {
    Construction(board, seed).draw();
    return board;
}

} // namespace vrid::tests
