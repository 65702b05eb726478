#include "io/write/board_file_entry.hpp"

#include <array>
#include <ctime>
#include <filesystem>

#include <sys/stat.h>

namespace vrid {
namespace {

/// Empty for a file that cannot be looked at.
std::string day_of_last_change(const std::string& file) {
    struct stat status {};
    std::tm day{};
    if (stat(file.c_str(), &status) != 0 || gmtime_r(&status.st_mtime, &day) == nullptr) {
        return "";
    }
    std::array<char, 16> text{};
    return {text.data(), std::strftime(text.data(), text.size(), "%Y-%m-%d", &day)};
}

} // namespace

Json board_file_entry(const Board& board, const std::vector<std::string>& set) {
    Json entry = board_entry(board.name, board.hash, set);
    const std::string name = std::filesystem::path(board.file).filename().string();
    if (name.empty()) {
        return entry;
    }
    entry["file"] = name;
    if (const std::string day = day_of_last_change(board.file); !day.empty()) {
        entry["file_date"] = day;
    }
    return entry;
}

std::string board_file_words(const Json& entry) {
    const std::string file = entry.value("file", "");
    const std::string day = entry.value("file_date", "");
    return file.empty() || day.empty() ? file : file + ", last changed on " + day;
}

} // namespace vrid
