#include "io/verbs/match_solves.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <ostream>

#include "io/design/edit_board.hpp"
#include "io/design/new_board.hpp"
#include "io/design/read_goal.hpp"
#include "io/materials/design_paths.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/caution.hpp"
#include "io/write/design_path.hpp"
#include "io/write/family_report.hpp"
#include "io/write/number_name.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/units.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

constexpr const char* running_path = "planform.running_length_mm";
constexpr const char* waist_path = "planform.waist_width_mm";

// One size done.
struct SizeRow {
    const FamilySize* size = nullptr;
    Goal goal;
    Board board; // of the answer
    Matched found;
    BoardText text;
    BoardText written; // the same as the size's file has it: by its own name
};

double smaller_radius(const Board& board) {
    const auto radius = sidecut_radius(board.planform);
    return std::min(radius[0], radius[1]);
}

double file_value(const Board& board, const std::string& path) {
    const auto found = find_design(board, path);
    return found ? from_si(key_of_path(path), found->value) : std::nan("");
}

double running_length_of(const FamilySize& size, const Board& approved) {
    for (const Change& change : size.set) {
        const auto* value = std::get_if<double>(&change.value);
        if (change.path == running_path && value != nullptr) {
            return *value;
        }
    }
    return file_value(approved, running_path);
}

class FamilyMatch {
  public:
    FamilyMatch(const MatchInput& input, const Family& family, std::string goal, Console& console)
        : input_(input), family_(family), goal_(std::move(goal)), console_(console) {}

    std::vector<SizeRow> run() {
        find_approved();
        std::vector<const FamilySize*> order;
        for (const FamilySize& size : family_.sizes) {
            order.push_back(&size);
        }
        const double middle = file_value(input_.board, running_path);
        const auto away = [&](const FamilySize* size) {
            return std::abs(running_length_of(*size, input_.board) - middle);
        };
        std::ranges::stable_sort(order,
                                 [&](const auto* a, const auto* b) { return away(a) < away(b); });
        for (const FamilySize* size : order) {
            rows_.push_back(matched(*size));
        }
        std::ranges::stable_sort(rows_, {}, &SizeRow::size);
        return std::move(rows_);
    }

  private:
    // The targets' numbers of the approved board, those that some target refers to.
    void find_approved() {
        const std::vector<NumberId> requests = each_of(input_.goal.targets, &Target::number);
        Session session(input_.board);
        Settings settings;
        settings.threads = input_.threads;
        session.use(settings);
        NumbersWanted wanted;
        wanted.slopes = false;
        wanted.edge = input_.goal.edge.value_or(EdgeCondition{});
        for (const BoardNumber& number : session.numbers(requests, wanted).numbers) {
            approved_.push_back(number.quantity.value);
        }
    }

    // The board to begin with: the nearest answer with this size's values.
    BoardText start_of(const FamilySize& size) {
        const double length = running_length_of(size, input_.board);
        const BoardText* nearest = &input_.source;
        const Board* board = &input_.board;
        double least = std::abs(length - file_value(input_.board, running_path));
        for (const SizeRow& row : rows_) {
            const double away = std::abs(length - file_value(row.board, running_path));
            if (away < least) {
                least = away;
                nearest = &row.text;
                board = &row.board;
            }
        }
        std::vector<Change> changes = size.set;
        const double ratio = length / file_value(*board, running_path);
        for (const std::string& path : number_paths(*board)) {
            const bool stretched = std::ranges::any_of(
                size.stretch, [&](const std::string& pattern) { return covers(pattern, path); });
            const bool set = contains(size.set, path, &Change::path);
            if (stretched && !set) {
                constexpr double shown = 100; // of a millimetre: what a shop can draw
                const double to = file_value(*board, path) * ratio;
                changes.push_back({path, std::round(to * shown) / shown, size.place});
            }
        }
        BoardText text = *nearest;
        if (size.sidecut) {
            changes.push_back({waist_path, waist_for(text, changes, size), size.place});
        }
        if (!changes.empty()) {
            text.text = edit_board(text, input_.library, changes);
        }
        return text;
    }

    // The waist width that gives the sidecut radius, by the secant rule.
    double waist_for(const BoardText& text, const std::vector<Change>& changes,
                     const FamilySize& size) {
        constexpr double accuracy = 1e-9;
        const NamedBoard plain = read_named_board(text, input_.library);
        const auto miss = [&](double waist) {
            Board board = plain.board;
            std::vector<Change> all = changes;
            all.push_back({waist_path, waist, size.place});
            apply_changes(board, all, plain.named);
            return 1 / smaller_radius(board) - 1 / *size.sidecut; // nearly linear in the waist
        };
        double a = file_value(plain.board, waist_path);
        double b = a - 1;
        double at_a = miss(a);
        double at_b = miss(b);
        for (int step = 0; step < 50 && std::abs(b - a) > accuracy && at_a != at_b; ++step) {
            const double next = b - at_b * (b - a) / (at_b - at_a);
            a = b;
            at_a = at_b;
            b = next;
            at_b = miss(b);
        }
        constexpr double shown = 1e4; // of a millimetre
        return std::round(b * shown) / shown;
    }

    [[nodiscard]] double scaled(std::size_t target, const FamilySize& size,
                                const Board& board) const {
        double wanted = approved_[target];
        for (const auto& [what, power] : family_.scale[target]) {
            const bool rider = what == "rider_kg";
            const std::string path =
                rider ? what : covered_paths(what, number_paths(input_.board)).front();
            const double ratio = rider ? *size.rider / *family_.approved_rider
                                       : file_value(board, path) / file_value(input_.board, path);
            wanted *= std::pow(ratio, power);
        }
        return wanted;
    }

    SizeRow matched(const FamilySize& size) {
        console_.err << "size " << size.name << ", " << rows_.size() + 1 << " of "
                     << family_.sizes.size() << "\n";
        SizeRow row;
        row.size = &size;
        MatchInput own{input_.library, start_of(size), {}, {}, {}, "", input_.threads, size.name};
        own.board = read_board_text(own.source, input_.library);
        Family again;
        own.goal = read_goal(goal_, own.board, &again);
        for (std::size_t j = 0; j < own.goal.targets.size(); ++j) {
            Target& target = own.goal.targets[j];
            own.others.emplace_back();
            if (target.same_as == same_as_approved) {
                target.kind = Target::Kind::value;
                target.wanted = scaled(j, size, own.board);
            } else if (target.kind == Target::Kind::same_as) {
                own.others.back() = read_board(target.same_as, input_.library);
            }
        }
        row.found = match_board(own, console_);
        row.goal = own.goal;
        row.text = {row.found.text, own.source.file, own.source.folder};
        row.written = row.text;
        row.board = read_board_text(row.text, input_.library);
        return row;
    }

    const MatchInput& input_;
    const Family& family_;
    std::string goal_;
    Console& console_;
    std::vector<double> approved_; // by target
    std::vector<SizeRow> rows_;
};

double wanted_of(const MatchedTarget& target) {
    const double low = target.window.low;
    const double high = target.window.high;
    const double wanted = std::isinf(low) ? high : std::isinf(high) ? low : (low + high) / 2;
    return wanted * bench_unit(target.after.unit).per_si;
}

std::vector<std::pair<std::string, double>> values_of(const SizeRow& row) {
    std::vector<std::pair<std::string, double>> all;
    for (const std::string& path : number_paths(row.board)) {
        const auto found = find_design(row.board, path);
        const auto& values = row.found.problem.values;
        const bool free = std::ranges::any_of(values, [&](const auto& value) {
            return value.id == found->id || contains(value.carry, found->id);
        });
        const bool set = contains(row.size->set, path, &Change::path);
        const bool stretched = std::ranges::any_of(
            row.size->stretch, [&](const std::string& pattern) { return covers(pattern, path); });
        if (free || set || stretched || (row.size->sidecut && path == waist_path)) {
            all.emplace_back(path, file_value(row.board, path));
        }
    }
    return all;
}

SizeAnswer answer_of(const SizeRow& row, const MaterialLibrary& library, const Settings& settings) {
    SizeAnswer answer{row.size->name, row.size->rider, row.found.result.met, {}, {}, {}};
    answer.board = read_board_text(row.written, library);
    for (std::size_t j = 0; j < row.goal.targets.size(); ++j) {
        const MatchedTarget& target = row.found.result.targets[j];
        const Target& asked = row.goal.targets[j];
        answer.targets.push_back({number_name(asked.number), wanted_of(target), target.after,
                                  target.met, miss_text(asked.number, target.miss)});
        if (asked.kind == Target::Kind::range) {
            const double per_si = bench_unit(target.after.unit).per_si;
            const auto bench = [&](const std::optional<double>& si) {
                return si ? std::optional(*si * per_si) : std::nullopt;
            };
            answer.targets.back().min = bench(asked.min);
            answer.targets.back().max = bench(asked.max);
        }
    }
    answer.values = values_of(row);
    answer.limits = held_limits(row.board, known_numbers(row.goal, row.found), row.goal, settings);
    return answer;
}

// What the board of a size is called: the approved one's name with the size's.
std::string size_name(const Board& approved, const FamilySize& size) {
    const std::string mark = " (match)";
    std::string name = approved.name;
    if (name.ends_with(mark)) {
        name.resize(name.size() - mark.size());
    }
    return name + " " + size.name;
}

} // namespace

int match_family(const MatchInput& input, const Family& family, const std::string& goal, bool json,
                 Console& console) {
    std::error_code ignored;
    if (fs::is_regular_file(input.out, ignored) || fs::path(input.out).extension() == ".toml") {
        throw InputError("--out", "found the file " + input.out +
                                      "; accepted: a folder, as the goal has several sizes");
    }
    StagedFiles files(input.out); // what is wrong with it should not come to light later
    std::vector<SizeRow> rows = FamilyMatch(input, family, goal, console).run();
    wipe_progress(console);
    bool met = true;
    Settings settings;
    settings.threads = input.threads;
    FamilyReport report{input.board.name, input.board.hash, {}, input.out};
    for (SizeRow& row : rows) {
        met = met && row.found.result.met;
        row.written.text = new_board_text(
            renamed_board_text(row.text.text, input.source.file, size_name(input.board, *row.size)),
            input.source.file, "match");
        if (row.found.result.met) {
            files.add(row.size->name + ".toml", row.written.text);
        }
        report.sizes.push_back(answer_of(row, input.library, settings));
    }
    const std::string document = family_json(report);
    files.add("family.json", document);
    files.publish_as("match");
    console.out << (json ? document : family_text(report) + caution_text());
    return met ? exit_done : exit_limit_exceeded;
}

} // namespace vrid
