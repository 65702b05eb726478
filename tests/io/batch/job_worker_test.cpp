// Messages between a batch and its processes, over a pair of sockets.
#include "io/batch/job_worker.hpp"

#include <thread>

#include <catch2/catch.hpp>
#include <sys/socket.h>
#include <unistd.h>

using namespace vrid;

namespace {

struct Pair {
    std::array<int, 2> ends{-1, -1};
    Pair() { REQUIRE(::socketpair(AF_UNIX, SOCK_STREAM, 0, ends.data()) == 0); }
    Pair(const Pair&) = delete;
    Pair& operator=(const Pair&) = delete;
    ~Pair() {
        for (const int end : ends) {
            ::close(end);
        }
    }
};

} // namespace

TEST_CASE("messages come whole and in order, each with its kind, also empty and very long ones") {
    const Pair pair;
    using Kind = JobMessage::Kind;
    const std::vector<JobMessage> sent{{Kind::job, "12"},
                                       {Kind::done, ""},
                                       {Kind::failed, std::string("a\0b\n", 4)},
                                       {Kind::no_output, std::string(3'000'000, 'x')},
                                       {Kind::go, "end"}};
    std::thread sender([&] {
        for (const JobMessage& message : sent) {
            (void)send_message(pair.ends[0], message);
        }
    });
    for (const JobMessage& message : sent) {
        const auto got = receive_message(pair.ends[1]);
        REQUIRE(got);
        CHECK(got->kind == message.kind);
        CHECK((got->text == message.text)); // not printed: it is long
    }
    sender.join();
}

TEST_CASE("an end that is gone is no message, in the middle of one either") {
    Pair pair;
    REQUIRE(::send(pair.ends[0], "d\x10\0\0\0abc", 8, 0) == 8); // of 16 letters three
    ::close(pair.ends[0]);
    CHECK_FALSE(receive_message(pair.ends[1]));
    CHECK_FALSE(receive_message(pair.ends[1]));
    CHECK_FALSE(send_message(pair.ends[1], {JobMessage::Kind::done, "text"})); // and no signal
    pair.ends[0] = -1;
}
