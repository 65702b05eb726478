#include <ostream>

#include "io/live/server.hpp"
#include "io/verbs/verb.hpp"

namespace vrid {
namespace {

int run_live(const Arguments& arguments, Console& console) {
    std::vector<Problem> problems;
    const double port = number_of(arguments, {"--port", 1024, 65000, true}, problems).value_or(0);
    throw_if_any(problems);
    Sitting sitting(arguments.positional.front(), {});
    const auto ready = [&](const std::string& address) {
        console.out << address << std::endl; // flushed: who started it waits for it
        console.err << "open this address in a browser on this machine; Ctrl-C ends it\n";
    };
    serve(sitting, static_cast<int>(port), ready, console.cancelled);
    throw Cancelled();
}

} // namespace

Verb live_verb() {
    Verb verb{"live",
              "a page on this machine: change the board, and its numbers follow",
              "BOARD",
              1,
              1,
              "Prints an address; the page there shows the board from the side and from above, its "
              "layers and all bench numbers. Drag a station or type a value: first-order "
              "predictions appear at once, marked \"about\"; solved numbers follow. Write changes "
              "only the lines of the board file that differ.\n\nListens on 127.0.0.1 only, and "
              "answers only requests that carry the token in the address. Ctrl-C ends it.",
              {{"--port", "N", "Port to listen on, 1024 to 65000. Default: a free one."}},
              {"vrid live board.toml"},
              run_live};
    verb.predicts = true;
    return verb;
}

} // namespace vrid
