#include "io/verbs/study_arguments.hpp"

#include <algorithm>
#include <sstream>

#include "io/design/number_names.hpp"
#include "io/materials/design_paths.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/design_path.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {

std::vector<std::string> words_of(const Arguments& arguments, const std::string& name) {
    std::vector<std::string> words;
    for (const std::string& text : texts_of(arguments, name)) {
        std::istringstream list(text);
        for (std::string word; std::getline(list, word, ',');) {
            const auto first = word.find_first_not_of(' ');
            if (first != std::string::npos) {
                words.push_back(word.substr(first, word.find_last_not_of(' ') - first + 1));
            }
        }
    }
    return words;
}

std::vector<NumberId> numbers_asked(const Arguments& arguments, const Board& board,
                                    const std::vector<double>& travels) {
    std::vector<NumberId> all = bent_requests(board, travels);
    if (!arguments.has("--of")) {
        const std::vector<NumberId> plain = plain_requests(board);
        all.insert(all.begin(), plain.begin(), plain.end());
        return all;
    }
    std::vector<Problem> problems;
    for (const std::string& word : words_of(arguments, "--of")) {
        if (word.find('*') == std::string::npos) {
            const NumberFound found = find_number(word, board);
            if (found.request) {
                add_once(all, *found.request);
            } else {
                problems.push_back({"--of", found.wrong});
            }
            continue;
        }
        const std::vector<std::string> names = covered_paths(word, number_names(board));
        for (const std::string& name : names) {
            add_once(all, parse_number(name, board));
        }
        if (names.empty()) {
            problems.push_back({"--of", "found '" + word + "', no number of this board fits"});
        }
    }
    if (problems.empty() && all.empty()) {
        problems.push_back({"--of", "found an empty list; accepted: names of numbers"});
    }
    throw_if_any(problems);
    return all;
}

std::vector<bool> values_asked(const Arguments& arguments, const std::vector<DesignValue>& values) {
    const std::vector<std::string> paths =
        each_of(values, [](const DesignValue& value) { return path_of(value.id); });
    std::vector<bool> asked(values.size(), false);
    if (!arguments.has("--to")) { // what a shop can change: no constants of materials
        std::transform(paths.begin(), paths.end(), asked.begin(),
                       [](const std::string& path) { return !path.starts_with("material."); });
        return asked;
    }
    std::vector<Problem> problems;
    for (const std::string& word : words_of(arguments, "--to")) {
        bool any = false;
        for (std::size_t i = 0; i < paths.size(); ++i) {
            if (covers(word, paths[i])) {
                asked[i] = any = true;
            }
        }
        if (!any) {
            problems.push_back({"--to", "found '" + word + "', no design value of this board" +
                                            (word.starts_with("rest_shape.z_mm")
                                                 ? std::string(": heights of the rest shape have "
                                                               "no derivatives, compare two files")
                                                 : did_you_mean(word, paths))});
        }
    }
    throw_if_any(problems);
    return asked;
}

std::vector<std::string> known_numbers() {
    Board board; // with all that numbers need
    board.stance.emplace();
    board.cure.emplace().mould.emplace();
    return number_names(board);
}

std::vector<Option> element_option_table() {
    return {{"--degree", "P", "Polynomial degree of the elements, 1 to 6."},
            {"--size-mm", "MM", "Longest side of an element."},
            flat_option(),
            {"--threads", "N", "Threads to use. Default: one for every core."}};
}

std::vector<Option> numbers_option_table() {
    std::vector<Option> options = element_option_table();
    for (Option option : edge_condition_table()) {
        option.what = "For edge results" +
                      std::string(option.value.empty() ? ": " : ", one value: ") + option.what;
        options.push_back(option);
    }
    return options;
}

EdgeCondition one_condition(const Arguments& arguments) {
    const std::vector<EdgeCondition> conditions = edge_conditions(arguments);
    if (conditions.size() != 1) {
        throw InputError("--angle, --force, --hardness, --share, --side",
                         "found a map of " + std::to_string(conditions.size()) +
                             " conditions; accepted: one value each");
    }
    return conditions.front();
}

} // namespace vrid
