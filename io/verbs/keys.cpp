#include <ostream>

#include "io/read/keys_text.hpp"
#include "io/verbs/verb.hpp"

namespace vrid {
namespace {

int run_keys(const Arguments& arguments, Console& console) {
    const std::string table = arguments.positional.empty() ? "" : arguments.positional.front();
    console.out << (arguments.has("--json") ? keys_json(table) : keys_text(table));
    return exit_done;
}

} // namespace

Verb keys_verb() {
    return {"keys",
            "every key of the board file: unit, range, default, meaning",
            "[TABLE]",
            0,
            1,
            "Lists the keys that a board file may have, table by table, or those of one TABLE: "
            "what is accepted, in which unit, the default, and what it means. Board files are read "
            "by the same list.",
            {{"--json", "", "Print one JSON document instead of tables."}},
            {"vrid keys", "vrid keys planform", "vrid keys layer.zone"},
            run_keys,
            false,
            known_keys()};
}

} // namespace vrid
