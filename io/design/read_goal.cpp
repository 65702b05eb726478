#include "io/design/read_goal.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>

#include "io/design/number_names.hpp"
#include "io/design/read_free_values.hpp"
#include "io/read/read_edge_condition.hpp"
#include "io/toml/accepted.hpp"
#include "io/toml/read_text.hpp"
#include "io/write/number_name.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

constexpr double default_within = 0.005;       // share of the value
constexpr double default_within_length = 1e-3; // of a position [m]
constexpr double default_within_angle = 0.1;   // of one that is an angle [deg]

/// The number in bench units, in SI.
std::optional<double> bench_to_si(std::optional<double> value, Unit unit) {
    return value ? std::optional(*value / bench_unit(unit).per_si) : std::nullopt;
}

/// Whether the number is above zero for every board.
bool is_positive(const NumberId& number) {
    using Kind = NumberId::Kind;
    constexpr std::array kinds{Kind::mass, Kind::bench_case, Kind::mode,   Kind::EI,
                               Kind::GJ,   Kind::thickness,  Kind::length, Kind::area};
    return contains(kinds, number.kind);
}

/// What no board can have is a slip of the pen, and nothing to search for.
void check_possible(TableReader& table, const Target& target, const char* key,
                    const std::optional<double>& wanted) {
    if (wanted && !(*wanted > 0) && is_positive(target.number)) {
        table.wrong(key, "a number above 0, as " + number_name(target.number) + " is");
    }
}

void read_range(TableReader& table, Target& target) {
    const Unit unit = unit_of(target.number);
    target.min = bench_to_si(table.number_if("min"), unit);
    target.max = bench_to_si(table.number_if("max"), unit);
    if (target.min && target.max && *target.min > *target.max) {
        table.wrong("max", "a number from min up");
    }
}

/// Where a goal stands.
struct Around {
    std::string folder;
    Family* family = nullptr; ///< of several sizes, perhaps
};

void read_same_as(TableReader& table, Target& target, const Around& around) {
    const std::string path = table.text_if("same_as");
    if (path == same_as_approved && around.family != nullptr && !around.family->sizes.empty()) {
        target.same_as = path;
        return;
    }
    target.same_as =
        path.empty() ? "" : (fs::path(around.folder) / path).lexically_normal().string();
    std::error_code ignored;
    if (!path.empty() && !fs::is_regular_file(target.same_as, ignored)) {
        table.problem("same_as", "found \"" + path + "\": no file '" + target.same_as + "'");
    }
}

/// What is wanted: one of percent, value, same_as and a range.
void read_wanted(TableReader& table, Target& target, const Around& around) {
    const auto percent = table.number_if("percent");
    const auto value = bench_to_si(table.number_if("value"), unit_of(target.number));
    read_range(table, target);
    check_possible(table, target, "value", value);
    check_possible(table, target, "max", target.max);
    read_same_as(table, target, around);
    const bool range = table.has("min") || table.has("max");
    const int given = (table.has("percent") ? 1 : 0) + (table.has("value") ? 1 : 0) +
                      (table.has("same_as") ? 1 : 0) + (range ? 1 : 0);
    if (given != 1) {
        note_problem(table.reading(), table.place(),
                     table.path() + ": found " + (given == 0 ? "none" : std::to_string(given)) +
                         " of percent, value, same_as, and min or max; accepted: one of them");
    }
    target.kind = percent ? Target::Kind::percent
                  : value ? Target::Kind::value
                  : range ? Target::Kind::range
                          : Target::Kind::same_as;
    target.wanted = percent ? *percent / 100 : value.value_or(0);
    if (percent && is_position(target.number)) {
        table.problem(
            "percent",
            "a percentage of a position makes no sense; accepted: value, same_as, min, max");
    }
}

void read_within(TableReader& table, Target& target) {
    if (target.kind == Target::Kind::range) {
        table.refuse("within_percent",
                     "not accepted beside min or max, which are kept as they are");
        table.refuse("within_mm", "not accepted beside min or max, which are kept as they are");
        table.refuse("within_deg", "not accepted beside min or max, which are kept as they are");
        return;
    }
    target.within_is_length = is_position(target.number);
    const bool angle = unit_of(target.number) == Unit::angle;
    const std::string accepted = angle ? "within_deg" : "within_mm";
    if (target.within_is_length) {
        table.refuse("within_percent",
                     "a percentage of a position makes no sense; accepted: " + accepted);
        table.refuse(angle ? "within_mm" : "within_deg",
                     "of another unit than the number; accepted: " + accepted);
        target.within = angle ? table.number_or("within_deg", to_si("x_deg", default_within_angle))
                              : table.number_or("within_mm", default_within_length);
    } else {
        table.refuse("within_mm", "only for positions; accepted: within_percent");
        table.refuse("within_deg", "only for a twist out of the press; accepted: within_percent");
        target.within = table.number_or("within_percent", default_within * 100) / 100;
    }
}

std::optional<Target> read_target(TableReader& table, const Board& board, const Around& around) {
    Target target;
    target.place = table.place();
    const std::string name = table.text("number");
    const NumberFound found = find_number(name, board);
    if (!name.empty() && !found.request) {
        table.problem("number", found.wrong);
    }
    target.number = found.request.value_or(NumberId{});
    read_wanted(table, target, around);
    read_within(table, target);
    if (around.family != nullptr) {
        around.family->scale.push_back(read_scale(table, *around.family, board));
    }
    table.finish();
    return found.request ? std::optional(target) : std::nullopt;
}

/// What a target leaves: of percentages as shares, else SI.
struct Window {
    double low = -HUGE_VAL, high = HUGE_VAL;
};

std::optional<Window> window_of(const Target& target) {
    const double within = target.within_is_length || target.kind == Target::Kind::range
                              ? target.within
                              : target.within * std::abs(target.wanted);
    switch (target.kind) {
    case Target::Kind::range:
        return Window{target.min.value_or(-HUGE_VAL), target.max.value_or(HUGE_VAL)};
    case Target::Kind::value:
        return Window{target.wanted - within, target.wanted + within};
    case Target::Kind::percent: // within is of the number that is met, (1 + share)
        return Window{target.wanted - target.within * (1 + target.wanted),
                      target.wanted + target.within * (1 + target.wanted)};
    case Target::Kind::same_as:
        break;
    }
    return std::nullopt;
}

/// Two targets on one number that no board can meet at once.
bool contradict(const Target& a, const Target& b) {
    const bool shares = a.kind == Target::Kind::percent;
    const auto x = window_of(a);
    const auto y = window_of(b);
    const bool comparable = x && y && shares == (b.kind == Target::Kind::percent);
    return a.number == b.number && comparable && (x->low > y->high || y->low > x->high);
}

void check_together(const std::vector<Target>& targets, Reading& reading) {
    for (std::size_t j = 1; j < targets.size(); ++j) {
        for (std::size_t i = 0; i < j; ++i) {
            if (contradict(targets[i], targets[j])) {
                note_problem(reading, targets[j].place,
                             "target: \"" + number_name(targets[j].number) +
                                 "\" contradicts the target at " + targets[i].place);
                break;
            }
        }
    }
}

std::vector<Target> read_targets(TableReader& root, const Board& board, const Around& around) {
    std::vector<Target> targets;
    auto tables = root.tables("target");
    if (tables.empty()) {
        root.wrong("target", "at least one [[target]] with a number to reach");
    }
    for (TableReader& table : tables) {
        if (auto target = read_target(table, board, around)) {
            targets.push_back(*std::move(target));
        }
    }
    check_together(targets, root.reading());
    return targets;
}

Least read_objective(TableReader& root) {
    auto table = root.table_if("objective");
    if (!table) {
        return Least::change;
    }
    const std::string least = table->text("least");
    if (!least.empty() && least != "mass" && least != "change") {
        table->wrong("least", R"("mass" or "change")");
    }
    table->finish();
    return least == "mass" ? Least::mass : Least::change;
}

} // namespace

Goal read_goal_text(const BoardText& source, const Board& board, Family* family) {
    Reading reading{source.file, {}, {}, {}};
    const toml::table parsed = parse_toml(source.text, reading);
    TableReader root = TableReader::root(reading, parsed);
    Goal goal;
    goal.file = source.file;
    read_optional_format(root);
    if (family != nullptr) {
        *family = read_family(root, board);
    }
    goal.targets = read_targets(root, board, {source.folder, family});
    goal.free = read_free_values(root, board, FreeFor::match);
    if (family != nullptr) {
        check_family(*family, goal.free, reading);
    }
    goal.least = read_objective(root);
    const bool on_edge = std::ranges::any_of(goal.targets, [](const Target& target) {
        return target.number.kind == NumberId::Kind::edge;
    });
    if (const auto table = root.table_if("edge")) {
        goal.edge = read_edge_condition(*table);
    } else if (on_edge) {
        goal.edge = default_edge_condition();
    }
    root.finish();
    throw_if_any(std::move(reading.problems));
    return goal;
}

Goal read_goal(const std::string& path, const Board& board, Family* family) {
    return read_goal_text(board_text(path), board, family);
}

} // namespace vrid
