#include <algorithm>
#include <ostream>

#include "io/design/edit_board.hpp"
#include "io/design/lot_board.hpp"
#include "io/design/new_board.hpp"
#include "io/design/number_names.hpp"
#include "io/materials/tolerances.hpp"
#include "io/verbs/study_arguments.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/design_path.hpp"
#include "io/write/lot_report.hpp"
#include "io/write/number.hpp"
#include "io/write/number_name.hpp"
#include "io/write/staged_files.hpp"
#include "io/write/units.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {
namespace {

struct LotInput {
    Settings settings;
    std::string out, fitted;
    double most_outside = 0.01;
    std::uint64_t seed = 1;
};

LotInput lot_input(const Arguments& arguments, Console& console) {
    LotInput input;
    input.settings = study_options(arguments, console);
    input.out = out_folder(arguments);
    input.fitted = answer_file(arguments, "--fitted");
    std::vector<Problem> problems;
    input.most_outside = share_of(arguments, "--outside", problems).value_or(0.01);
    input.seed = static_cast<std::uint64_t>(
        number_of(arguments, {"--seed", 0, 4294967295.0, true}, problems).value_or(1));
    throw_if_any(problems);
    return input;
}

/// The board file's limits on the columns, SI.
std::vector<std::optional<CapabilityLimits>> limits_of(const Board& board, const Lot& lot) {
    return each_of(lot.columns, [&](const LotColumn& column) {
        const auto limit = column.number ? limit_of(board, *column.number) : std::nullopt;
        return limit ? std::optional(CapabilityLimits{limit->min, limit->max}) : std::nullopt;
    });
}

/// Each word of a column by a number, as they come; -1 for none.
std::vector<int> groups_of(const std::vector<std::string>& words) {
    std::map<std::string, int> known;
    return each_of(words, [&](const std::string& word) {
        return word.empty() ? -1
                            : known.emplace(word, static_cast<int>(known.size())).first->second;
    });
}

std::vector<std::size_t> joint_groups(const Rig& rig, const LotBoard& board) {
    std::vector<std::size_t> joint;
    std::vector<Problem> problems;
    for (const RigScatter& asked : rig.scatter) {
        const auto found = std::ranges::find(board.groups, asked.group);
        if (found == board.groups.end()) {
            problems.push_back({asked.place, "scatter.group: found \"" + asked.group +
                                                 "\"; accepted: an entry of [tolerance], of the "
                                                 "board or the library, that moves a reading" +
                                                 did_you_mean(asked.group, board.groups)});
        } else if (!contains(joint, static_cast<std::size_t>(found - board.groups.begin()))) {
            joint.push_back(static_cast<std::size_t>(found - board.groups.begin()));
        }
    }
    throw_if_any(problems);
    return joint;
}

LotOptions options_of(const Lot& lot, const Rig& rig, const LotBoard& board,
                      const std::vector<std::optional<CapabilityLimits>>& limits,
                      const LotInput& input) {
    LotOptions options;
    options.limits = limits;
    for (const LotWords& words : lot.words) {
        options.columns.push_back(groups_of(words.words));
    }
    options.joint = joint_groups(rig, board);
    options.change.seed = input.seed;
    options.change.threads = input.settings.thread_count();
    return options;
}

LotReport report_of(const Board& board, const Lot& lot, const LotBoard& model) {
    LotReport report;
    report.board = board.name;
    report.hash = board.hash;
    report.serials = lot.serials;
    report.dates = lot.dates;
    report.groups = model.groups;
    report.model = model.model;
    report.readings = lot.readings;
    report.warnings = model.warnings;
    for (const LotColumn& column : lot.columns) {
        report.numbers.push_back({column.name, column.unit(), column.from_si(1), column.nominal});
    }
    for (std::size_t j = 0; j < model.values.size(); ++j) {
        const DesignId& id = model.values[j];
        report.values.push_back(
            {path_of(id), file_unit_name(id), from_si(id, 1), model.nominal[j]});
    }
    for (const LotWords& words : lot.words) {
        report.texts.push_back({words.name, words.words});
    }
    return report;
}

/// The values that the next readings should tell of: those of [[free]], or those that the findings
/// name, or those that move the readings most.
std::vector<Index> of_interest(const Rig& rig, const LotBoard& board, const LotFindings& findings) {
    constexpr std::size_t most = 12;
    if (!rig.free.empty()) {
        return board.model.free;
    }
    std::vector<Index> named;
    const auto add = [&](Index value) {
        if (named.size() < most && !contains(named, value)) {
            named.push_back(value);
        }
    };
    if (findings.changed) {
        add(findings.change.value);
        std::ranges::for_each(findings.change.rivals, add);
    }
    for (const LotExplanation& explanation : findings.moved.explanations) {
        for (const ValueShift& shift : explanation.shifts) {
            add(shift.value);
        }
    }
    return named.empty() ? strongest_values(board.model, most) : named;
}

LotPlan plan_of(Session& session, const Lot& lot, const Rig& rig, const LotBoard& board,
                const LotFindings& findings) {
    LotPlan plan;
    plan.interest = of_interest(rig, board, findings);
    const NextCandidates candidates = next_candidates(session, lot, rig, board, plan.interest);
    plan.boards = boards_needed(board.model);
    plan.candidates = candidates.names;
    plan.lot = static_cast<double>(lot.serials.size());
    PlanOptions options{plan.lot, plan.interest, {}};
    const auto& explanations = findings.moved.explanations;
    if (findings.changed && !findings.change.rivals.empty()) {
        plan.rivals = {findings.change.value, findings.change.rivals.front()};
    } else if (findings.moved.explained && explanations.size() > 1 &&
               explanations[0].shifts.size() == 1) {
        plan.rivals = {explanations[0].shifts[0].value, explanations[1].shifts[0].value};
    }
    if (!plan.rivals.empty()) {
        options.rivals = std::pair(plan.rivals[0], plan.rivals[1]);
    }
    plan.next = next_readings(board.model, {candidates.slopes, candidates.rig_sd}, options);
    return plan;
}

/// The board with the best explanation's shifts. \returns why not, if it cannot be
std::string write_fitted(const std::string& file, const LotReport& report, const BoardText& source,
                         const MaterialLibrary& library) {
    const LotMoved& moved = report.findings.moved;
    std::vector<Change> changes;
    if (!moved.explained && moved.p <= as_predicted) {
        return moved.degrees == 1 ? "one number alone does not tell which value moved"
                                  : "no set of up to three values, each as a board file accepts "
                                    "it, explains the mean of the lot";
    }
    if (moved.explained) {
        for (const ValueShift& shift : moved.explanations.front().shifts) {
            const LotName& name = report.values[static_cast<std::size_t>(shift.value)];
            changes.push_back(
                {name.name, round_significant((name.nominal + shift.shift) * name.per_si, 6), ""});
        }
    }
    try {
        const std::string text = edit_board(source, library, changes);
        write_file(file, changes.empty() ? text : new_board_text(text, source.file, "lot"));
    } catch (const InputError& error) { // each value can be, but not all of them together
        return std::string("the values that explain the mean make no board: ") + error.what();
    }
    return "";
}

void write_results(const LotInput& input, const LotReport& report, const BoardText& source,
                   const MaterialLibrary& library, Console& console) {
    if (!input.fitted.empty()) {
        const std::string why = write_fitted(input.fitted, report, source, library);
        const LotBoards about = report.findings.about;
        const std::string makes = about == LotBoards::before_change  ? "made it before the change"
                                  : about == LotBoards::after_change ? "makes it since the change"
                                                                     : "makes it";
        console.err << (why.empty()
                            ? "the board as the plant " + makes + " is in " + input.fitted +
                                  (report.findings.moved.explained
                                       ? "\n"
                                       : ", unchanged: the mean is as predicted\n")
                            : "no board was written to " + input.fitted + ": " + why + "\n");
    }
    if (!input.out.empty()) {
        StagedFiles files(input.out);
        files.add("lot.json", lot_json(report));
        files.publish();
        console.err << "results are in " << input.out << "\n";
    }
}

std::vector<std::string> cases_for(const Arguments& arguments, const Board& board, const Lot& lot) {
    if (arguments.has("--plan")) {
        return cases_of(plain_requests(board));
    }
    std::vector<NumberId> numbers;
    for (const LotColumn& column : lot.columns) {
        if (column.number) {
            numbers.push_back(*column.number);
        }
    }
    return cases_of(numbers);
}

int run_lot(const Arguments& arguments, Console& console) {
    const LotInput input = lot_input(arguments, console);
    const MaterialLibrary library = load_material_library();
    const std::string& file = arguments.positional[0];
    const BoardText source = board_text(file);
    const Board board = board_argument(source, library, arguments, console).board;
    check_answer(input.fitted, "--fitted", {source, board, library});
    const std::string rig_file = text_of(arguments, "--rig");
    const Lot lot = read_lot(arguments.positional[1], board);
    const Rig rig = arguments.has("--rig") ? read_rig(rig_file, board) : Rig{};
    const LotRig deviations = rig_of(lot, rig);
    try_folder(input.out);
    stop_if_cancelled(console);
    Session session(board, input.settings, cases_for(arguments, board, lot));
    const LotBoard model = lot_board(session, lot, rig, deviations, library);
    LotReport report = report_of(board, lot, model);
    report.rig_of_repeats = deviations.of_repeats;
    report.limits = limits_of(board, lot);
    report.most_outside = input.most_outside;
    report.findings =
        study_lot(model.model, lot.readings, options_of(lot, rig, model, report.limits, input),
                  [&](const std::vector<ValueShift>& shifts) {
                      return model_at(session, lot, model, shifts);
                  });
    if (arguments.has("--plan")) {
        report.plan = plan_of(session, lot, rig, model, report.findings);
    }
    wipe_progress(console);
    tell_warnings(file, report.warnings, console);
    write_results(input, report, source, library, console);
    console.out << (arguments.has("--json") ? lot_json(report) : lot_text(report));
    return lot_lines(report).empty() ? exit_done : exit_limit_exceeded;
}

std::vector<Option> lot_options() {
    return with_options(
        {{"--rig", "RIG.toml",
          "How well the rig reads each number: [[reading]] number, sd, bias_sd; [[free]] value: "
          "what may have changed; [[scatter]] group: groups to test together."},
         {"--plan", "",
          "Also say how many boards it takes to see a shift, and what to measure next."},
         {"--fitted", "NEW.toml",
          "Write a copy of the board with the shifts of the best explanation."},
         {"--outside", "SHARE",
          "Share of boards outside [limits] that is still acceptable, 0.01 or 1%. Default: 1%."},
         {"--seed", "S", "Seed of the random numbers behind p. Default: 1."},
         {"--out", "DIR", "Write lot.json into this folder, which is created if needed."},
         strict_option(),
         {"--json", "", "Print lot.json's content instead of tables."}},
        element_option_table());
}

} // namespace

Verb lot_verb() {
    return {
        "lot",
        "what the readings of a production lot say: outliers, changes, what moved, what scatters",
        "BOARD READINGS",
        2,
        2,
        "READINGS is a CSV file with a header and a row for each board: serial, optionally date, "
        "press and batch.NAME, and a column for each number measured, named as vrid solve names it "
        "and in its unit, or the path of a design value that was measured itself. Commas and "
        "decimal points, or semicolons and decimal commas. An empty cell or - is not measured; the "
        "same serial again is a repeat, and five repeats or more give the noise of the rig where "
        "--rig does not.\n\nEverything follows from the exact derivatives of the numbers and the "
        "[tolerance] of the board: boards that do not belong; since when a value has changed, "
        "suddenly or gradually; which few values explain the mean; which group scatters more than "
        "declared; what share is outside [limits]. Exit status 1: something was found.",
        lot_options(),
        {"vrid lot board.toml readings.csv --rig rig.toml --out lot",
         "vrid lot board.toml readings.csv --plan --fitted as-made.toml"},
        run_lot};
}

} // namespace vrid
