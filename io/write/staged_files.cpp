#include "io/write/staged_files.hpp"

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <system_error>
#include <vector>

#include <fcntl.h>
#include <unistd.h>

#include "io/write/descriptor_stream.hpp"
#include "io/write/json_parts.hpp"
#include "mesh/board/error.hpp"
#include "mesh/board/lists.hpp"

namespace vrid {
namespace {

/// Which files of a folder which verb wrote last.
using FilesList = std::map<std::string, std::vector<std::string>>;

constexpr const char* files_list_name = "vrid-files.json";

bool is_plain(const std::string& name) {
    return !name.empty() && name.front() != '.' && name.find('/') == std::string::npos &&
           name.find('\0') == std::string::npos && name != files_list_name;
}

/// The list of the folder; empty if there is none or it is damaged: then nothing is known. Names
/// that lead out of the folder are no names.
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
    const Json all = read_json(std::string(std::istreambuf_iterator<char>(file), {}));
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

constexpr int readable_by_all = 0644; // less what the user's mask takes away

std::string reason(int number) {
    return std::generic_category().message(number);
}

/// A file descriptor that closes itself when something throws in between.
class Descriptor {
  public:
    explicit Descriptor(int number) : number_(number) {}
    ~Descriptor() { close(); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int number() const { return number_; }
    int close() {
        const int result = number_ < 0 ? 0 : ::close(number_);
        number_ = -1;
        return result;
    }

  private:
    int number_;
};

/// Every call is checked: a full disk may show at write, at fsync or only at close.
int write_flushed(const std::filesystem::path& path, std::string_view bytes) {
    // a link that waits under this name may lead anywhere: it is not followed
    Descriptor file(::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW,
                           readable_by_all));
    if (file.number() < 0) {
        return errno;
    }
    if (const int error = write_all(file.number(), bytes); error != 0) {
        return error;
    }
    if (::fsync(file.number()) != 0) {
        return errno;
    }
    return file.close() == 0 ? 0 : errno;
}

/// Makes the renames themselves durable. Some file systems cannot; the files are whole anyway.
void flush_folder(const std::filesystem::path& folder) {
    const Descriptor handle(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (handle.number() >= 0) {
        ::fsync(handle.number());
    }
}

} // namespace

StagedFiles::StagedFiles(std::filesystem::path folder) : folder_(std::move(folder)) {
    std::error_code error;
    std::filesystem::create_directories(folder_, error);
    if (error) {
        throw OutputError(folder_.string(), "cannot create this folder: " + error.message());
    }
    if (!std::filesystem::is_directory(folder_, error)) {
        throw OutputError(folder_.string(), "is not a folder");
    }
    if (::access(folder_.c_str(), W_OK | X_OK) != 0) {
        throw OutputError(folder_.string(), "cannot write here: " + reason(errno));
    }
}

StagedFiles::~StagedFiles() {
    for (const auto& [temporary, name] : staged_) {
        std::error_code ignored; // there is nobody left to tell
        std::filesystem::remove(temporary, ignored);
    }
}

void StagedFiles::add(const std::string& name, std::string_view bytes) {
    const auto temporary = folder_ / ("." + name + "." + std::to_string(::getpid()) + ".part");
    staged_.emplace_back(temporary, name);
    if (const int error = write_flushed(temporary, bytes); error != 0) {
        throw OutputError((folder_ / name).string(), "cannot be written: " + reason(error));
    }
}

void StagedFiles::publish() {
    while (!staged_.empty()) {
        const auto& [temporary, name] = staged_.front();
        std::error_code error;
        std::filesystem::rename(temporary, folder_ / name, error);
        if (error) {
            throw OutputError((folder_ / name).string(), "cannot be written: " + error.message());
        }
        staged_.erase(staged_.begin());
    }
    flush_folder(folder_);
}

void StagedFiles::publish_as(const std::string& verb) {
    FilesList list = read_files_list(folder_);
    std::vector<std::string> before = list[verb];
    list[verb] = names();
    add(files_list_name, files_list_text(list));
    publish();
    for (const std::string& name : before) {
        const bool written =
            std::ranges::any_of(list, [&](const auto& one) { return contains(one.second, name); });
        std::error_code error;
        const auto path = folder_ / name;
        if (!written &&
            std::filesystem::is_regular_file(std::filesystem::symlink_status(path, error))) {
            std::filesystem::remove(path, error);
        }
    }
}

std::vector<std::string> StagedFiles::names() const {
    std::vector<std::string> all;
    for (const auto& [temporary, name] : staged_) {
        all.push_back(name);
    }
    return all;
}

void write_file(const std::filesystem::path& path, std::string_view bytes) {
    const auto folder = path.parent_path();
    StagedFiles files(folder.empty() ? std::filesystem::path(".") : folder);
    files.add(path.filename().string(), bytes);
    files.publish();
}

} // namespace vrid
