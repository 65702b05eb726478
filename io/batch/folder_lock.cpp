#include "io/batch/folder_lock.hpp"

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>
#include <sstream>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include "mesh/board/error.hpp"

namespace vrid {

namespace {

struct Holder {
    std::string host;
    long process = 0;
    std::string start; ///< clock ticks since the machine started
};

/// The start of a process in ticks: tells it from a later one with the same number, whatever the
/// clock was set to meanwhile. Empty: there is no such process.
std::string start_of(long process) {
    std::ifstream file("/proc/" + std::to_string(process) + "/stat");
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    const std::size_t name_end = text.rfind(')'); // the name may have blanks in it
    if (name_end == std::string::npos) {
        return "";
    }
    constexpr int fields_between = 19; // proc(5): the name is field 2, the start field 22
    std::istringstream rest(text.substr(name_end + 1));
    std::string word;
    for (int i = 0; i <= fields_between; ++i) {
        rest >> word;
    }
    return word;
}

Holder self() {
    std::array<char, 256> host{};
    ::gethostname(host.data(), host.size() - 1);
    return {host.data(), ::getpid(), start_of(::getpid())};
}

Holder read_holder(int handle) {
    std::array<char, 512> text{};
    Holder holder;
    const ssize_t size = ::pread(handle, text.data(), text.size() - 1, 0);
    std::istringstream words(
        std::string(text.data(), size > 0 ? static_cast<std::size_t>(size) : 0));
    words >> holder.host >> holder.process >> holder.start; // damaged: whatever could be read
    return holder;
}

void write_holder(int handle, const Holder& holder) {
    const std::string text =
        holder.host + " " + std::to_string(holder.process) + " " + holder.start + "\n";
    if (::ftruncate(handle, 0) == 0) {
        // for people only: a full disk may leave it empty
        [[maybe_unused]] const ssize_t written = ::pwrite(handle, text.data(), text.size(), 0);
    }
}

[[noreturn]] void refuse(const std::filesystem::path& file, const Holder& holder) {
    const std::string who = holder.process == 0
                                ? std::string("another batch")
                                : "another batch (process " + std::to_string(holder.process) +
                                      " on " + holder.host + ")";
    throw OutputError(file.parent_path().string(),
                      who +
                          " is working in this folder; nothing was changed. If that process is "
                          "gone, remove " +
                          file.filename().string());
}

/// Without locks of the system: is the named holder still there?
bool lives(const Holder& holder) {
    const Holder me = self();
    return holder.process != 0 &&
           (holder.host != me.host ||
            (!holder.start.empty() && start_of(holder.process) == holder.start));
}

} // namespace

FolderLock::FolderLock(const std::filesystem::path& file, bool shared) {
    // through a link somebody else's file would be emptied
    handle_ = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (handle_ < 0) {
        throw OutputError(file.string(),
                          errno == ELOOP
                              ? std::string("is a symbolic link; a lock must be a "
                                            "file of its own: remove the link")
                              : std::string("cannot be written: ") + std::strerror(errno));
    }
    const bool locked = ::flock(handle_, (shared ? LOCK_SH : LOCK_EX) | LOCK_NB) == 0;
    const bool held = !locked && errno == EWOULDBLOCK;
    const Holder holder = read_holder(handle_);
    if (held || (!locked && lives(holder))) {
        ::close(handle_);
        refuse(file, holder);
    }
    if (!shared) {
        write_holder(handle_, self());
    }
}

FolderLock::~FolderLock() {
    ::close(handle_); // the file stays: removing it would let two in at once
}

} // namespace vrid
