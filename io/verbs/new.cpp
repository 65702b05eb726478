#include <algorithm>
#include <filesystem>
#include <ostream>

#include "io/design/new_board.hpp"
#include "io/materials/material_library.hpp"
#include "io/read/read_board.hpp"
#include "io/toml/read_text.hpp"
#include "io/verbs/verb.hpp"
#include "io/write/staged_files.hpp"
#include "mesh/board/lists.hpp"
#include "mesh/board/nearest_name.hpp"

namespace vrid {
namespace {

namespace fs = std::filesystem;

/// Where the program is installed the examples lie at their place beside it; before that, in the
/// sources.
fs::path examples_folder() {
    std::error_code ignored;
    const fs::path program = fs::read_symlink("/proc/self/exe", ignored).parent_path();
    for (const fs::path& folder : {program / VRID_EXAMPLES, fs::path(VRID_EXAMPLES_SOURCE)}) {
        if (fs::is_directory(folder, ignored)) {
            return folder;
        }
    }
    return {};
}

std::vector<std::string> example_names(const fs::path& folder) {
    std::vector<std::string> names;
    std::error_code ignored;
    for (fs::directory_iterator at(folder, ignored), end; !ignored && at != end;
         at.increment(ignored)) {
        if (fs::is_regular_file(at->path() / "board.toml", ignored)) {
            names.push_back(at->path().filename().string());
        }
    }
    std::ranges::sort(names);
    return names;
}

/// The text of an example, or of a board file.
std::string text_from(const std::string& name) {
    const fs::path folder = examples_folder();
    const std::vector<std::string> names = example_names(folder);
    if (contains(names, name)) {
        return read_text((folder / name / "board.toml").string());
    }
    std::error_code ignored;
    if (fs::exists(name, ignored)) {
        return read_text(name);
    }
    std::string listed;
    for (const std::string& known : names) {
        listed += ", " + known;
    }
    throw InputError("--from", "found '" + name + "'" + did_you_mean(name, names) +
                                   "; accepted: a board file" + listed);
}

int run_new(const Arguments& arguments, Console& console) {
    const std::string& file = arguments.positional.front();
    std::error_code ignored;
    if (fs::exists(fs::symlink_status(file, ignored))) {
        throw InputError("", "'" + file + "' exists already; accepted: the name of a new file");
    }
    const MaterialLibrary library = load_material_library();
    const std::string text = commented_board(
        arguments.has("--from") ? text_from(text_of(arguments, "--from")) : start_board());
    (void)read_board_text({text, file, fs::path(file).parent_path().string()}, library);
    write_file(file, text);
    console.err << file << " is written; 'vrid check " << file << "' shows what it is\n";
    return exit_done;
}

} // namespace

Verb new_verb() {
    return {"new",
            "write a board file to start from, every key explained",
            "FILE",
            1,
            1,
            "Writes a board file with a comment at each key: meaning, unit, range. Keys that the "
            "board does not use are in it as comments with a sample value. An existing file is not "
            "overwritten.",
            {{"--from", "NAME",
              "Start from this example (nh-157-querwind, ...) or from this board file."}},
            {"vrid new board.toml", "vrid new --from coupon-triax strip.toml"},
            run_new};
}

} // namespace vrid
