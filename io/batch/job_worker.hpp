#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include <sys/types.h>

#include "io/batch/job_processes.hpp"

namespace vrid {

/// What passes between a batch and a process that does its jobs.
struct JobMessage {
    enum class Kind : char {
        job = 'j',       ///< to the process: do this one (text: its number)
        go = 'g',        ///< to it: there is room
        never = 'n',     ///< to it: there never will be (text: why)
        room = 'r',      ///< from it: wants room (text: bytes)
        done = 'd',      ///< from it
        failed = 'f',    ///< from it (text: why)
        no_memory = 'm', ///< from it: ran out of memory
        no_output = 'o'  ///< from it: a result could not be written (text: why)
    };
    Kind kind = Kind::done;
    std::string text;
};

/// Sends it whole. False: the other end is gone.
bool send_message(int socket, const JobMessage& message);

/// Waits for a message. Nothing: the other end is gone.
std::optional<JobMessage> receive_message(int socket);

/// A copy of this process that does the jobs it is sent. It ends with its batch, however that ends;
/// Ctrl-C is the batch's to hear.
class JobWorker {
  public:
    /// \throws SolveError when the system gives no process
    explicit JobWorker(const JobCalls& calls);
    ~JobWorker(); ///< ends it, in the middle of a job too
    JobWorker(const JobWorker&) = delete;
    JobWorker& operator=(const JobWorker&) = delete;

    [[nodiscard]] int socket() const { return socket_; }
    void begin(std::size_t which);
    void answer(JobMessage::Kind kind, const std::string& text = "");
    /// After it has gone of itself: how, in words; `killed` if by the signal that the system's
    /// memory killer sends.
    std::string how_it_ended(bool& killed);

    std::optional<std::size_t> job; ///< at work on
    std::optional<double> wants;    ///< waits for so much room [bytes]
    double room = 0;                ///< has been given [bytes]
    std::size_t asked = 0;          ///< turn in which it asked for it

  private:
    pid_t process_ = -1;
    int socket_ = -1;
};

} // namespace vrid
