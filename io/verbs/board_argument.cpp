#include "io/verbs/board_argument.hpp"

#include <ostream>

#include "io/verbs/arguments.hpp"

namespace vrid {

Option strict_option() {
    return {"--strict", "",
            "Take warnings about the board file for errors: what can be built, but hardly is "
            "(vrid check lists them)."};
}

NamedBoard board_argument(const BoardText& source, const MaterialLibrary& library,
                          const Arguments& arguments, Console& console,
                          std::vector<Problem>* warnings) {
    NamedBoard read = read_named_board(source, library);
    std::vector<Problem> found = judged_warnings(read);
    if (arguments.has("--strict")) {
        throw_if_any(found);
    }
    for (const Problem& warning : found) {
        console.err << warning.place << ": warning: " << warning.message << "\n";
    }
    if (warnings != nullptr) {
        *warnings = std::move(found);
    }
    return read;
}

NamedBoard board_argument(const std::string& path, const MaterialLibrary& library,
                          const Arguments& arguments, Console& console,
                          std::vector<Problem>* warnings) {
    return board_argument(board_text(path), library, arguments, console, warnings);
}

} // namespace vrid
