#include "io/batch/job_worker.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdint>
#include <cstring>
#include <exception>
#include <new>
#include <system_error>

#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include "mesh/board/error.hpp"
#include "solver/system/out_of_memory.hpp"

namespace vrid {

namespace {

constexpr std::size_t head_size = 1 + sizeof(std::uint32_t); // kind, length of the text

bool receive_all(int socket, char* place, std::size_t size) {
    while (size > 0) {
        const ssize_t got = ::recv(socket, place, size, 0);
        if (got == 0 || (got < 0 && errno != EINTR)) {
            return false;
        }
        place += got > 0 ? got : 0;
        size -= got > 0 ? static_cast<std::size_t>(got) : 0;
    }
    return true;
}

using Kind = JobMessage::Kind;

/// Without the locks and files of the batch: who takes over after its death must find them free.
void keep_only(int socket) {
    ::close_range(STDERR_FILENO + 1, static_cast<unsigned>(socket) - 1, 0);
    ::close_range(static_cast<unsigned>(socket) + 1, ~0U, 0);
}

JobMessage outcome(std::size_t job, const JobCalls& calls, const AskForRoom& ask) {
    try {
        calls.work(job, ask);
        return {Kind::done, ""};
    } catch (const OutputError& error) {
        return {Kind::no_output, error.what()};
    } catch (const OutOfMemory& error) {
        return {Kind::no_memory, error.what()};
    } catch (const std::bad_alloc&) {
        return {Kind::no_memory, "memory: out of memory"};
    } catch (const std::exception& error) {
        return {Kind::failed, error.what()};
    } catch (...) { // a type of some library
        return {Kind::failed, "unexpected error without a message"};
    }
}

/// All of the worker's life.
[[noreturn]] void serve(int socket, pid_t batch, const JobCalls& calls) {
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (::getppid() != batch) { // it has ended meanwhile
        ::_exit(0);
    }
    ::signal(SIGINT, SIG_IGN);
    for (const int own : {SIGTERM, SIGALRM, SIGSEGV, SIGBUS, SIGILL, SIGFPE, SIGABRT}) {
        ::signal(own, SIG_DFL); // whatever the batch does about it
    }
    keep_only(socket);
    const AskForRoom ask = [socket](double bytes) {
        send_message(socket, {Kind::room, std::to_string(bytes)});
        const auto answer = receive_message(socket);
        if (!answer || answer->kind != Kind::go) {
            throw SolveError("memory",
                             answer ? answer->text : "the batch that started this job has ended");
        }
    };
    while (const auto message = receive_message(socket)) {
        if (!send_message(socket, outcome(std::stoul(message->text), calls, ask))) {
            break;
        }
    }
    ::_exit(0); // what the batch has to write or to remove at its end is its own
}

} // namespace

bool send_message(int socket, const JobMessage& message) {
    const auto length = static_cast<std::uint32_t>(message.text.size());
    std::string bytes(head_size, static_cast<char>(message.kind));
    std::memcpy(bytes.data() + 1, &length, sizeof length);
    bytes += message.text;
    for (std::size_t at = 0; at < bytes.size();) {
        const ssize_t sent =
            ::send(socket, bytes.data() + at, bytes.size() - at, MSG_NOSIGNAL); // no SIGPIPE
        if (sent < 0 && errno != EINTR) {
            return false;
        }
        at += sent > 0 ? static_cast<std::size_t>(sent) : 0;
    }
    return true;
}

std::optional<JobMessage> receive_message(int socket) {
    std::array<char, head_size> head{};
    if (!receive_all(socket, head.data(), head.size())) {
        return std::nullopt;
    }
    std::uint32_t length = 0;
    std::memcpy(&length, head.data() + 1, sizeof length);
    JobMessage message{static_cast<JobMessage::Kind>(head[0]), std::string(length, ' ')};
    if (!receive_all(socket, message.text.data(), length)) {
        return std::nullopt;
    }
    return message;
}

JobWorker::JobWorker(const JobCalls& calls) {
    std::array<int, 2> ends{};
    const bool paired = ::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) == 0;
    const pid_t batch = ::getpid();
    process_ = paired ? ::fork() : -1;
    if (process_ == 0) {
        serve(ends[1], batch, calls);
    }
    const int error = errno;
    if (paired) {
        ::close(ends[1]);
        socket_ = ends[0];
    }
    if (process_ < 0) {
        if (paired) {
            ::close(socket_);
        }
        throw SolveError("batch",
                         "no process can be started: " + std::generic_category().message(error));
    }
}

JobWorker::~JobWorker() {
    ::close(socket_);
    if (process_ > 0) {
        ::kill(process_, SIGKILL);
        ::waitpid(process_, nullptr, 0);
    }
}

void JobWorker::begin(std::size_t which) {
    job = which;
    room = 0;
    wants.reset();
    answer(Kind::job, std::to_string(which));
}

void JobWorker::answer(Kind kind, const std::string& text) {
    send_message(socket_, {kind, text}); // gone: its socket says so when it is read
}

std::string JobWorker::how_it_ended(bool& killed) {
    int status = 0;
    ::waitpid(process_, &status, 0);
    process_ = -1;
    killed = WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
    if (!WIFSIGNALED(status)) {
        return "the job's process ended by itself with status " +
               std::to_string(WEXITSTATUS(status));
    }
    const int signal = WTERMSIG(status);
    return "the job's process was ended by signal " + std::to_string(signal) + " (" +
           ::strsignal(signal) + ")" +
           (killed ? ", as the system does when memory runs out" : ": a fault of the program");
}

} // namespace vrid
