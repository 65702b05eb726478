#include <csignal>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <iostream>
#include <new>
#include <string>

#include <sys/resource.h>
#include <sys/time.h>
#include <unistd.h>

#include "io/verbs/verb.hpp"
#include "io/write/descriptor_stream.hpp"
#include "mesh/board/error.hpp"
#include "mesh/dense_memory.hpp"
#include "solver/system/large_memory.hpp"

namespace {

// A signal handler can reach nothing but a global of this type.
volatile std::sig_atomic_t stop_wanted = 0;

extern "C" void want_stop(int) {
    stop_wanted = 1;
    constexpr itimerval grace{{0, 0}, {0, 600000}};
    setitimer(ITIMER_REAL, &grace, nullptr); // one call of the system: fit for a handler
}

extern "C" void stop_now(int) {
    constexpr char words[] = "\ncancelled\n";
    [[maybe_unused]] const ssize_t written = write(STDERR_FILENO, words, sizeof words - 1);
    _exit(vrid::exit_cancelled);
}

/// The first Ctrl-C asks the program to stop in good order; where it has not within 0.6 s, as in
/// the middle of a large factor, it ends all the same, and so it does at a second one. Files appear
/// whole or not at all, however it ends.
void listen_for_signals() {
    std::signal(SIGALRM, stop_now);
    struct sigaction action {};
    action.sa_handler = want_stop;
    action.sa_flags = static_cast<int>(SA_RESETHAND | SA_RESTART);
    sigemptyset(&action.sa_mask);
    sigaction(SIGINT, &action, nullptr);
    sigaction(SIGTERM, &action, nullptr);
}

/// A write beyond the limit on a file's size is an error that the program tells, not its end.
void survive_size_limit() {
    std::signal(SIGXFSZ, SIG_IGN);
}

/// Under a limit of addresses (ulimit -v): OpenBLAS has taken 128 MB for each of its own threads,
/// or looks for them without end, before main begins. They are not used here; the program starts
/// anew without them.
void drop_library_threads(char** words) {
    constexpr const char* variable = "OPENBLAS_NUM_THREADS";
    rlimit addresses{};
    if (getrlimit(RLIMIT_AS, &addresses) == 0 && addresses.rlim_cur != RLIM_INFINITY &&
        std::getenv(variable) == nullptr && setenv(variable, "1", 1) == 0) {
        execv("/proc/self/exe", words); // comes back only where it cannot: as it was, then
    }
}

int run(int count, char** words, std::ostream& err) {
    drop_library_threads(words);
    listen_for_signals();
    survive_size_limit();
    vrid::keep_freed_memory();
    vrid::end_dense_threads();
    vrid::DescriptorStream out(STDOUT_FILENO);
    vrid::Console console{out, err, isatty(STDERR_FILENO) == 1 ? &std::cerr : nullptr,
                          [] { return stop_wanted != 0; }};
    const int status = vrid::run_command_line({words + 1, words + std::max(count, 1)}, console);
    if (const int error = out.finish(); error != 0) {
        throw vrid::OutputError("standard output", std::strerror(error));
    }
    return status;
}

int report(int status, const std::string& what) {
    const bool terminal = isatty(STDERR_FILENO) == 1;
    std::cerr << (terminal ? "\r\x1b[K" : "") << vrid::without_controls(what)
              << "\n"; // wipes a bar
    return status;
}

} // namespace

int main(int count, char** words) {
    vrid::DescriptorStream err(STDERR_FILENO);
    err << std::unitbuf;
    try {
        return run(count, words, err);
    } catch (const vrid::InputError& error) {
        return report(vrid::exit_input, error.what());
    } catch (const vrid::SolveError& error) {
        return report(vrid::exit_solve, error.what());
    } catch (const vrid::OutputError& error) {
        return report(vrid::exit_output, error.what());
    } catch (const vrid::Cancelled& error) {
        return report(vrid::exit_cancelled, error.what());
    } catch (const std::bad_alloc&) {
        return report(vrid::exit_solve, "memory: out of memory");
    } catch (const std::exception& error) {
        return report(vrid::exit_solve, std::string("unexpected error: ") + error.what());
    }
}
