#include "io/toml/read_text.hpp"

#include <filesystem>
#include <fstream>

namespace vrid {

std::string read_text(const std::string& path, const std::string& place, std::size_t largest) {
    const std::string& where = place.empty() ? path : place;
    const std::string named = place.empty() ? "" : "'" + path + "': ";
    std::error_code failed;
    const auto status = std::filesystem::status(path, failed);
    if (status.type() == std::filesystem::file_type::not_found) {
        throw InputError(where, named + "no such file");
    }
    if (failed) {
        throw InputError(where, named + "cannot be read: " + failed.message());
    }
    if (std::filesystem::is_directory(status)) {
        throw InputError(where, named + "is a folder; a file is accepted");
    }
    if (!std::filesystem::is_regular_file(status)) {
        // a pipe or device may never end
        throw InputError(where, named + "is not a regular file");
    }
    std::ifstream in(path, std::ios::binary);
    if (!in) {
        throw InputError(where, named + "cannot be opened for reading");
    }
    std::string text(largest + 1, '\0');
    in.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(in.gcount()));
    if (in.bad()) {
        throw InputError(where, named + "cannot be read");
    }
    if (text.size() > largest) {
        const std::string most = std::to_string(largest >> 20U) + " MiB";
        throw InputError(where, named + "is larger than " + most + "; an input file of up to " +
                                    most + " is accepted");
    }
    return text;
}

} // namespace vrid
