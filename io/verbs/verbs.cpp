#include "io/verbs/verb.hpp"

namespace vrid {

std::vector<Option> with_options(std::vector<Option> options, const std::vector<Option>& others) {
    options.insert(options.end(), others.begin(), others.end());
    return options;
}

const std::vector<Verb>& verbs() {
    static const std::vector<Verb> table{
        check_verb(), solve_verb(),  compare_verb(), edge_verb(),      strength_verb(),
        sense_verb(), match_verb(),  scatter_verb(), calibrate_verb(), lot_verb(),
        batch_verb(), report_verb(), sheet_verb(),   materials_verb(), keys_verb(),
        new_verb(),   live_verb(),   help_verb()};
    return table;
}

} // namespace vrid
