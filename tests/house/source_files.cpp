#include "tests/house/source_files.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>

namespace vrid::tests {

namespace fs = std::filesystem;

std::vector<std::string> files_under(const std::vector<std::string>& folders,
                                     const std::vector<std::string>& endings) {
    std::vector<std::string> files;
    for (const std::string& folder : folders) {
        for (const auto& entry :
             fs::recursive_directory_iterator(fs::path(VRID_SOURCE_DIR) / folder)) {
            const std::string ending = entry.path().extension().string();
            if (std::find(endings.begin(), endings.end(), ending) != endings.end()) {
                files.push_back(fs::relative(entry.path(), VRID_SOURCE_DIR).string());
            }
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

std::vector<std::string> lines_of(const std::string& file) {
    std::ifstream in(fs::path(VRID_SOURCE_DIR) / file);
    std::vector<std::string> lines;
    for (std::string line; std::getline(in, line);) {
        lines.push_back(line);
    }
    return lines;
}

} // namespace vrid::tests
