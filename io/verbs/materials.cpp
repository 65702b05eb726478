#include <ostream>

#include "io/materials/material_library.hpp"
#include "io/materials/materials_text.hpp"
#include "io/verbs/verb.hpp"

namespace vrid {
namespace {

int run_materials(const Arguments& arguments, Console& console) {
    const MaterialLibrary library = load_material_library();
    const auto name =
        arguments.positional.empty() ? std::nullopt : std::optional(arguments.positional.front());
    console.out << (arguments.has("--json") ? materials_json(library, name)
                                            : materials_text(library, name));
    return exit_done;
}

} // namespace

Verb materials_verb() {
    return {"materials",
            "the material library: every value of a material with its source",
            "[NAME]",
            0,
            1,
            "Lists the materials and fabrics that a board file may name without defining them, or "
            "with a NAME all values of that one, each with its unit and its source. A board file "
            "may add its own or override these.",
            {{"--json", "", "Print one JSON document instead of tables."}},
            {"vrid materials", "vrid materials e-glass"},
            run_materials};
}

} // namespace vrid
