#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace vrid {

/// Which files of a folder which verb wrote last.
using FilesList = std::map<std::string, std::vector<std::string>>;

constexpr const char* files_list_name = "vrid-files.json";

/// The list of the folder; empty if there is none or it is damaged: then nothing is known. Names
/// that lead out of the folder are no names.
FilesList read_files_list(const std::filesystem::path& folder);

std::string files_list_text(const FilesList& list);

} // namespace vrid
