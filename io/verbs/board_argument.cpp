#include "io/verbs/board_argument.hpp"

#include <ostream>

#include "io/design/number_names.hpp"
#include "io/design/what_if.hpp"
#include "io/verbs/arguments.hpp"
#include "io/write/design_path.hpp"

namespace vrid {

Option strict_option() {
    return {"--strict", "",
            "Treat warnings about the board file as errors: what can be built but hardly ever is "
            "(vrid check lists it)."};
}

Option set_option() {
    std::vector<std::string> settable = kind_patterns();
    std::erase_if(settable, [](const std::string& path) { return path.find('*') != path.npos; });
    return {"--set", "PATH=VALUE",
            "Compute the board with this value instead of the file's: a what-if without a new "
            "file, such as --set core.thickness_scale=1.05 or --set stance.width_mm=560. May be "
            "repeated; the output names what was set.",
            true, settable};
}

Arguments without_set(Arguments arguments) {
    arguments.options.erase("--set");
    return arguments;
}

NamedBoard board_argument(const BoardText& source, const MaterialLibrary& library,
                          const Arguments& arguments, Console& console,
                          std::vector<Problem>* warnings) {
    const auto set = arguments.options.find("--set");
    const std::vector<Setting> settings =
        set == arguments.options.end() ? std::vector<Setting>{} : settings_of(set->second);
    NamedBoard read = read_what_if(source, library, settings);
    std::vector<Problem> found = judged_warnings(read);
    const std::vector<Problem> idle = unknown_limits(read);
    found.insert(found.end(), idle.begin(), idle.end());
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
