#pragma once

#include <cstddef>
#include <functional>
#include <string>

#include "io/live/sitting.hpp"

namespace vrid {

/// Serves the page of a sitting on 127.0.0.1 until `ended` says so. Requests need the token that
/// the address holds and a Host and Origin of this very address; others get 403, a body above 1 MB
/// 413, what cannot be understood 400, what the reader refuses 422 with its words.
///
/// Every request has the token as its query. GET / /page.css /page.js, /board (Sitting::opened),
/// /revision. POST with a JSON body {"revision", "changes": {path: value}, "page": a name that the
/// page gave itself}: /shape ("x": mm), /solve ("slopes": true or false), /over ("what"), /other
/// ("name"), /lines, /write ("name" of a new file; absent: the file itself), as the functions of
/// Sitting. The server keeps no changes. What is refused is answered {"problems": [{"place",
/// "message"}]}: also 404 for a request that there is not, 409 when the file is another by now, 410
/// when the page has asked anew, 500. \param port 0: a free one \param ready told the address with
/// its token, once it answers \throws OutputError when the port cannot be had
void serve(Sitting& sitting, int port, const std::function<void(const std::string&)>& ready,
           const std::function<bool()>& ended);

/// How many requests are answered at once where so many addresses are left to the process [bytes]:
/// each has a stack, and the library that starts their threads waits without end when one cannot be
/// had. 128 at most, 4 at least.
std::size_t request_threads(double addresses);

} // namespace vrid
