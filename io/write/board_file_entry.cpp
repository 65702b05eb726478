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

BoardEntry board_file_entry(const Board& board, const std::vector<std::string>& set) {
    BoardEntry entry{board.name, board.hash, set};
    entry.file = std::filesystem::path(board.file).filename().string();
    entry.file_date = entry.file.empty() ? "" : day_of_last_change(board.file);
    return entry;
}

std::string BoardEntry::file_words() const {
    return file + (file.empty() || file_date.empty() ? "" : ", last changed on " + file_date);
}

} // namespace vrid
