#include "tests/house/source_files.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>

#include "tests/places.hpp"

namespace vrid::tests {

namespace fs = std::filesystem;

std::vector<std::string> files_under(const std::vector<std::string>& folders,
                                     const std::vector<std::string>& endings) {
    std::vector<std::string> files;
    for (const std::string& folder : folders) {
        for (const auto& entry : fs::recursive_directory_iterator(fs::path(source_dir) / folder)) {
            const std::string ending = entry.path().extension().string();
            if (std::find(endings.begin(), endings.end(), ending) != endings.end()) {
                files.push_back(fs::relative(entry.path(), source_dir).string());
            }
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

std::vector<std::string> lines_of(const std::string& file) {
    std::ifstream in(fs::path(source_dir) / file);
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) {
        lines.push_back(line);
    }
    return lines;
}

} // namespace vrid::tests
