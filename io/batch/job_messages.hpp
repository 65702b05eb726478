#pragma once

#include <optional>
#include <string>

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

} // namespace vrid
