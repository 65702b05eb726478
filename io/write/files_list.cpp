#include "io/write/files_list.hpp"

#include <fstream>
#include <iterator>

#include "io/write/json_parts.hpp"

namespace vrid {
namespace {

bool is_plain(const std::string& name) {
    return !name.empty() && name.front() != '.' && name.find('/') == std::string::npos &&
           name.find('\0') == std::string::npos && name != files_list_name;
}

} // namespace

FilesList read_files_list(const std::filesystem::path& folder) {
    constexpr std::uintmax_t largest = 1 << 20;
    const std::filesystem::path path = folder / files_list_name;
    std::error_code error;
    const auto status = std::filesystem::symlink_status(path, error);
    if (!std::filesystem::is_regular_file(status) ||
        std::filesystem::file_size(path, error) > largest) {
        return {};
    }
    std::ifstream file(path);
    const Json all =
        Json::parse(std::string(std::istreambuf_iterator<char>(file), {}), nullptr, false);
    FilesList list;
    if (!all.is_object() || !all.contains("written") || !all["written"].is_object()) {
        return list;
    }
    for (const auto& [verb, names] : all["written"].items()) {
        for (const Json& name : names) {
            if (name.is_string() && is_plain(name.get<std::string>())) {
                list[verb].push_back(name.get<std::string>());
            }
        }
    }
    return list;
}

std::string files_list_text(const FilesList& list) {
    Json all{{"format", 1}, {"written", Json::object()}};
    for (const auto& [verb, names] : list) {
        all["written"][verb] = names;
    }
    return json_text(all);
}

} // namespace vrid
