#include "io/batch/file_bytes.hpp"

#include <fstream>
#include <iterator>

#include "mesh/board/error.hpp"

namespace vrid {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t largest = std::uintmax_t{64} << 20; // a map of a thousand conditions

} // namespace

std::string file_bytes(const fs::path& path) {
    std::error_code error;
    const fs::file_status status = fs::status(path, error);
    if (!fs::exists(status)) {
        return "";
    }
    if (!fs::is_regular_file(status)) { // a pipe or a device may never end
        throw InputError(path.string(), "is not a regular file");
    }
    if (fs::file_size(path, error) > largest && !error) {
        throw InputError(path.string(), "is larger than 64 MiB: vrid writes no such file");
    }
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

Json parsed(const std::filesystem::path& path) {
    return read_json(file_bytes(path));
}

} // namespace vrid
