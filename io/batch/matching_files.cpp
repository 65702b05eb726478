#include <algorithm>
#include <filesystem>

#include "io/batch/suite.hpp"
#include "io/toml/name_pattern.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> entries(const fs::path& folder) {
    std::vector<fs::path> all;
    std::error_code error; // a folder that cannot be read has no files that fit
    for (fs::directory_iterator it(folder.empty() ? "." : folder, error), end; !error && it != end;
         it.increment(error)) {
        all.push_back(it->path().filename());
    }
    return all;
}

// A link that leads nowhere fits, too: that its board is gone is that row's failure.
bool is_file(const fs::path& path) {
    std::error_code error;
    return fs::is_regular_file(path, error) ||
           (fs::is_symlink(path, error) && !fs::exists(path, error));
}

/// What a pattern finds.
struct Finds {
    std::vector<std::string> files, no_files;
    void add(const fs::path& path) {
        std::error_code error;
        if (is_file(path)) {
            files.push_back(path.lexically_normal().string());
        } else if (path.extension() == ".toml" && fs::exists(path, error)) {
            no_files.push_back(path.lexically_normal().string());
        }
    }
};

void collect(const fs::path& folder, const std::vector<std::string>& parts, std::size_t at,
             Finds& found) {
    const std::string& part = parts[at];
    const bool last = at + 1 == parts.size();
    const bool deep = part == "**";
    if (deep && !last) {
        collect(folder, parts, at + 1, found); // ** may stand for no folder at all
    }
    if (part.find_first_of("*?") == std::string::npos) { // ".." and the like are in no listing
        const fs::path path = folder / part;
        std::error_code error;
        if (last) {
            found.add(path);
        } else if (fs::is_directory(path, error)) {
            collect(path, parts, at + 1, found);
        }
        return;
    }
    for (const fs::path& name : entries(folder)) {
        const fs::path path = folder / name;
        std::error_code error;
        const bool hidden = name.string().starts_with('.') && !part.starts_with('.');
        if (hidden || !fits_pattern(name.string(), deep ? "*" : part, "*?")) {
            continue;
        }
        if (last) {
            found.add(path);
        } else if (fs::is_directory(path, error) && !fs::is_symlink(path, error)) {
            collect(path, parts, deep ? at : at + 1, found);
        }
    }
}

} // namespace

std::vector<std::string> matching_files(const std::string& pattern, const std::string& folder,
                                        std::vector<std::string>* no_files) {
    const fs::path path(pattern);
    const std::vector<std::string> parts =
        each_of(path.relative_path(), [](const fs::path& part) { return part.string(); });
    Finds found;
    if (!parts.empty()) {
        collect(path.is_absolute() ? path.root_path() : fs::path(folder), parts, 0, found);
    }
    sort_distinct(found.files);
    sort_distinct(found.no_files);
    if (no_files != nullptr) {
        *no_files = found.no_files;
    }
    return found.files;
}

} // namespace vrid
