#include "io/batch/file_bytes.hpp"

#include <fstream>
#include <iterator>

namespace vrid {

std::string file_bytes(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace vrid
