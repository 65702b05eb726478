#include "io/batch/job_messages.hpp"

#include <array>
#include <cerrno>
#include <cstddef>
#include <cstdint>
#include <cstring>

#include <sys/socket.h>
#include <sys/types.h>

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

} // namespace vrid
