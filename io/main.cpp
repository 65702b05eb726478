#include <csignal>
#include <cstring>
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include <unistd.h>

#include "io/verbs/command_line.hpp"
#include "io/write/descriptor_stream.hpp"
#include "mesh/board/error.hpp"
#include "solver/system/freed_memory.hpp"

namespace {

// A signal handler can reach nothing but a global of this type.
volatile std::sig_atomic_t stop_wanted = 0;

extern "C" void want_stop(int) {
    stop_wanted = 1;
}

/// The first Ctrl-C asks the program to stop in good order, a second one ends it at once.
void listen_for_signals() {
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

int run(int count, char** words, std::ostream& err) {
    listen_for_signals();
    survive_size_limit();
    vrid::keep_freed_memory();
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
    } catch (const std::exception& error) {
        return report(vrid::exit_solve, std::string("unforeseen: ") + error.what());
    }
}
