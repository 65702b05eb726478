#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace vrid::tests {

// Boards that most tests run on, as the program finds them from the sources.
inline const std::string querwind = "examples/nh-157-querwind/board.toml";
inline const std::string coupon = "examples/coupon-sandwich/board.toml";

/// What a user sees of one run.
struct Run {
    int status = -1; ///< exit status; minus the signal's number if one ended it
    std::string out, err;
    double seconds_after_signal = 0; ///< until it ended
};

/// Runs the built program in the source folder with these words after its name. Standard output
/// goes to `out_file` instead when one is named ("/dev/full").
Run run_program(const std::vector<std::string>& words, const std::string& out_file = "");

/// Starts it, sends `signal` after `delay_seconds`, and waits.
Run run_and_signal(const std::vector<std::string>& words, int signal, double delay_seconds);

/// Starts it, calls `during` with its process number, and waits.
Run run_and(const std::vector<std::string>& words, const std::function<void(int process)>& during);

/// Runs it with so much address space (ulimit -v), with the dense library's own threads as it
/// comes.
Run run_in_addresses(const std::vector<std::string>& words, double megabytes);

/// A folder of its own, gone afterwards.
class TemporaryFolder {
  public:
    TemporaryFolder();
    ~TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// Writes a file into it and returns its full name.
    [[nodiscard]] std::string file(const std::string& name, const std::string& content) const;
    [[nodiscard]] std::vector<std::string> names() const; ///< entries, sorted, hidden ones too

  private:
    std::filesystem::path path_;
};

/// A whole file's bytes; empty if it cannot be read.
std::string content(const std::filesystem::path& path);

} // namespace vrid::tests
