#include "tests/whole/run_program.hpp"

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <thread>

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "tests/places.hpp"

namespace vrid::tests {
namespace {

void send_to_file(int descriptor, const std::string& path) {
    const int file = open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    if (file < 0 || dup2(file, descriptor) < 0) {
        _exit(126);
    }
}

/// In the child: becomes the program.
[[noreturn]] void become(const std::vector<std::string>& words, const std::string& out,
                         const std::string& err) {
    send_to_file(STDOUT_FILENO, out);
    send_to_file(STDERR_FILENO, err);
    std::vector<char*> arguments{const_cast<char*>(built_program)};
    for (const std::string& word : words) {
        arguments.push_back(const_cast<char*>(word.c_str()));
    }
    arguments.push_back(nullptr);
    if (chdir(source_dir) == 0) {
        execv(built_program, arguments.data());
    }
    _exit(127);
}

struct Manner {
    std::string out_file;
    std::function<void(int process)> during;
    double megabytes = 0; // of addresses; 0: as many as there are
};

void limit_addresses(double megabytes) {
    const auto bytes = static_cast<rlim_t>(megabytes * 1e6);
    const rlimit limit{bytes, bytes};
    const rlimit seconds{120, 120}; // of processor time: what looks for memory without end is ended
    unsetenv("OPENBLAS_NUM_THREADS");
    if (setrlimit(RLIMIT_AS, &limit) != 0 || setrlimit(RLIMIT_CPU, &seconds) != 0) {
        _exit(125);
    }
}

Run run(const std::vector<std::string>& words, const Manner& manner) {
    const TemporaryFolder folder;
    const std::string out =
        manner.out_file.empty() ? (folder.path() / "out").string() : manner.out_file;
    const std::string err = (folder.path() / "err").string();
    const pid_t child = fork();
    if (child == 0) {
        if (manner.megabytes > 0) {
            limit_addresses(manner.megabytes);
        }
        become(words, out, err);
    }
    if (manner.during) {
        manner.during(child);
    }
    const auto signalled = std::chrono::steady_clock::now();
    int status = 0;
    waitpid(child, &status, 0);
    const std::chrono::duration<double> after = std::chrono::steady_clock::now() - signalled;
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status),
            manner.out_file.empty() ? content(out) : "", content(err), after.count()};
}

} // namespace

std::string content(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

Run run_program(const std::vector<std::string>& words, const std::string& out_file) {
    return run(words, {out_file, nullptr, 0});
}

Run run_and_signal(const std::vector<std::string>& words, int signal, double delay_seconds) {
    return run_and(words, [&](int process) {
        std::this_thread::sleep_for(std::chrono::duration<double>(delay_seconds));
        kill(process, signal);
    });
}

Run run_in_addresses(const std::vector<std::string>& words, double megabytes) {
    return run(words, {"", nullptr, megabytes});
}

Run run_and(const std::vector<std::string>& words, const std::function<void(int process)>& during) {
    return run(words, {"", during, 0});
}

TemporaryFolder::TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "vrid-test-XXXXXX").string();
    path_ = mkdtemp(name.data());
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

std::string TemporaryFolder::file(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name, std::ios::binary) << text;
    return (path_ / name).string();
}

std::vector<std::string> TemporaryFolder::names() const {
    std::vector<std::string> all;
    for (const auto& entry : std::filesystem::directory_iterator(path_)) {
        all.push_back(entry.path().filename().string());
    }
    std::sort(all.begin(), all.end());
    return all;
}

} // namespace vrid::tests
