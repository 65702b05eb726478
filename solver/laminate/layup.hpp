#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "mesh/board/board.hpp"
#include "solver/laminate/micromechanics.hpp"
#include "solver/laminate/section.hpp"

namespace vrid {

/// One layer (or the mirrored copy of one) with its plies turned into board axes.
template <class T> struct LayupItem {
    std::string name, made_of;
    double angle = 0;             ///< of the whole layer, for people [rad]
    std::vector<Zone> zones;      ///< there where one of them is
    bool mirrored = false;        ///< the zones are reflected in y = 0
    bool is_core = false;         ///< plies come from the core's variants
    std::vector<Lamina<T>> plies; ///< upwards
    const Layer* layer = nullptr; ///< of the board that the layup is of
};

/// What a variant of the core is made of, and its share of the width.
struct CoreShare {
    std::string material;
    double share = 1;
};

/// One half of the core, of one side of y = 0, or both halves where they are alike.
struct CoreHalf {
    std::vector<double> breaks; ///< stations between smeared variants 0..n, rising [m]
    std::vector<int> smeared;   ///< variant of each stretch
    /// Resolved strips: variant of each strip of the pattern, and where its x_mm ends.
    std::vector<int> strip, fill;
};

/// The board's layup with materials resolved: what the section at a point is made of.
template <class T> struct Layup {
    std::vector<LayupItem<T>> items;                 ///< upwards
    std::vector<Lamina<T>> core_variants;            ///< thickness is set at the point
    std::vector<std::string> core_names;             ///< per variant, for people
    std::vector<std::vector<CoreShare>> core_shares; ///< per variant
    CoreHalf left, right;                            ///< of the core: y > 0 and y < 0
    int spacer_variant = -1, sidewall_variant = -1;
    Lamina<T> edge, flange;                  ///< thickness of the edge is set at the point
    std::vector<T> core_values, core_slopes; ///< at the core's stations
    /// Null when nothing asks for it, and with dual numbers: a plain layup finds the stacks.
    std::shared_ptr<const OutlineDistance> distance;
    const Board* board = nullptr; ///< must outlive this
};

/// Which of their stiffnesses the materials show.
enum class Pace {
    quick, ///< that of a bench
    slow   ///< after hours: Material::slow of it
};

/// Turns a board's design values into plies. \throws nothing: the reader has checked the names.
/// \param read seeds of a dual number; must name places of this board
template <class T>
Layup<T> make_layup(const Board& board, const BoardReading<T>& read = {}, Pace pace = Pace::quick);

/// Whether any of the board's materials creeps, so that its two layups differ.
bool creeps(const Board& board);

/// Which layers there are at a point: one entry per item (0 absent, 1 there), then what the base
/// is (BaseState), then the core
/// variant.
using StackKey = std::vector<std::uint16_t>;

/// What stands in the place of the base: the entry of a StackKey after the items.
enum BaseState : std::uint16_t { base_only, edge_only, base_and_flange, edge_and_flange };

template <class T> StackKey stack_key(const Layup<T>& layup, const Eigen::Vector2d& point);

/// The laminae of a key at core thickness `core`, upwards.
template <class T>
std::vector<Lamina<T>> stack_laminae(const Layup<T>& layup, const StackKey& key, const T& core);

/// Core thickness at station x by its profile along the board [m]; 0 without a core.
template <class T> T core_thickness(const Layup<T>& layup, double x);
/// The same at a point: with its change across the board.
template <class T> T core_thickness(const Layup<T>& layup, const Eigen::Vector2d& point);

/// Sections by stack and core thickness, computed once each. Not for two threads at once.
class SectionCache {
  public:
    explicit SectionCache(const Layup<double>& layup) : layup_(&layup) {}

    /// Number of the stack at a point; new ones are added.
    int stack_index(const Eigen::Vector2d& point);
    /// Section of a known stack at a point. The core thickness is rounded to 1e-13 m so that
    /// points at one station share their section.
    const Section<double>& section(int stack, const Eigen::Vector2d& point);
    const Section<double>& at(const Eigen::Vector2d& point) {
        return section(stack_index(point), point);
    }
    [[nodiscard]] const std::vector<StackKey>& stacks() const { return keys_; }

  private:
    const Layup<double>* layup_;
    std::map<StackKey, int> index_;
    std::vector<StackKey> keys_;
    std::vector<std::unordered_map<std::int64_t, Section<double>>> sections_;
};

/// The core's lamina of materials side by side, its thickness left 0. \param shares need not add up
/// to one: a share alone may be changed to see what the lamina owes to it
Lamina<double> core_lamina(const Board& board, const std::vector<CoreShare>& shares, Pace pace);

} // namespace vrid
