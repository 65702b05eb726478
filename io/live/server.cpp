#include "io/live/server.hpp"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <new>
#include <random>
#include <thread>

#include <httplib.h>
#include <sys/socket.h>

#include "io/live/live_files.hpp"
#include "solver/system/free_memory.hpp"

namespace vrid {
namespace {

constexpr std::size_t longest_body = 1U << 20U; // [bytes]
constexpr std::size_t threads = 128; // at most: a silent connection holds one until it times out
constexpr std::size_t most_changes = 5000;

std::string new_token() {
    std::random_device random;
    std::string token;
    for (int i = 0; i < 32; ++i) {
        token += "0123456789abcdef"[random() % 16];
    }
    return token;
}

constexpr const char* json_type = "application/json";

// Given piece by piece: a whole text is compressed for a browser that accepts that, which takes
// longer than all else of an answer and saves nothing on the way to the same machine.
void send(httplib::Response& response, std::string text, const char* type) {
    const std::size_t length = text.size();
    response.set_content_provider(
        length, type,
        [text = std::move(text)](std::size_t at, std::size_t count, httplib::DataSink& sink) {
            return sink.write(text.data() + at, count);
        });
}

// Whole: the library's handler of errors answers what has no body.
void refuse_with(httplib::Response& response, int status, const Json& problems) {
    response.status = status;
    response.set_content(json_line({{"problems", problems}}), json_type);
}

void refuse(httplib::Response& response, int status, const std::string& why) {
    refuse_with(response, status, Json::array({{{"place", ""}, {"message", why}}}));
}

std::string why_refused(const httplib::Request& request, int status) {
    switch (status) {
    case 404:
        return "found \"" + request.method + " " + request.path +
               "\"; accepted: GET / /page.css /page.js /board /revision, POST /shape /solve /over "
               "/other /lines /write";
    case 413:
        return "the request is longer than 1 MB";
    default:
        return "the request cannot be understood";
    }
}

/// Whatever a request does wrong becomes an answer; the server goes on.
template <class Work> void answered(httplib::Response& response, const Work& work) {
    try {
        send(response, json_line(work()), json_type);
    } catch (const InputError& error) {
        Json problems = Json::array();
        for (const Problem& one : error.problems()) {
            problems.push_back({{"place", one.place}, {"message", one.message}});
        }
        refuse_with(response, 422, problems);
    } catch (const FileChanged& error) {
        refuse(response, 409, error.what());
    } catch (const Superseded& error) {
        refuse(response, 410, error.what());
    } catch (const Json::exception&) {
        refuse(response, 400, "the request is no JSON of the form expected");
    } catch (const std::bad_alloc&) {
        refuse(response, 500, "memory: out of memory");
    } catch (const std::exception& error) {
        refuse(response, 500, error.what());
    }
}

std::vector<Change> changes_in(const Json& body) {
    std::vector<Change> changes;
    for (const auto& [path, value] : body.at("changes").items()) {
        if (value.is_string()) {
            changes.push_back({path, value.get<std::string>(), ""});
        } else {
            changes.push_back({path, value.get<double>(), ""});
        }
    }
    if (changes.size() > most_changes) {
        throw InputError("changes", "too many");
    }
    return changes;
}

std::string text_in(const Json& body, const char* key) {
    return body.contains(key) ? body.at(key).get<std::string>() : "";
}

std::string with_token(std::string text, const std::string& token) {
    const std::string mark = "?TOKEN";
    for (std::size_t at = 0; (at = text.find(mark, at)) != std::string::npos;) {
        text.replace(at, mark.size(), "?" + token);
    }
    return text;
}

void add_pages(httplib::Server& server, const std::string& token) {
    const auto page = [&](const char* path, const std::string& text, const char* type) {
        server.Get(path, [text, type](const httplib::Request&, httplib::Response& response) {
            send(response, text, type);
        });
    };
    page("/", with_token(live_html, token), "text/html; charset=utf-8");
    page("/page.css", live_style, "text/css; charset=utf-8");
    page("/page.js", live_script, "text/javascript; charset=utf-8");
}

void add_requests(httplib::Server& server, Sitting& sitting) {
    server.Get("/board", [&](const httplib::Request&, httplib::Response& response) {
        answered(response, [&] { return sitting.opened(); });
    });
    server.Get("/revision", [&](const httplib::Request&, httplib::Response& response) {
        answered(response, [&] { return Json{{"revision", sitting.revision_now()}}; });
    });
    const auto post = [&](const char* path, auto work) {
        server.Post(path, [work](const httplib::Request& request, httplib::Response& response) {
            answered(response, [&] {
                const Json body = read_json(request.body);
                return work(body, text_in(body, "revision"), changes_in(body));
            });
        });
    };
    using Changes = const std::vector<Change>&;
    using Text = const std::string&;
    post("/shape", [&](const Json& body, Text revision, Changes changes) {
        return sitting.drawn(revision, changes, body.value("x", 0.0));
    });
    post("/solve", [&](const Json& body, Text revision, Changes changes) {
        return sitting.solved(revision, changes, text_in(body, "page"),
                              body.value("slopes", false));
    });
    post("/over", [&](const Json& body, Text revision, Changes changes) {
        return sitting.over(revision, changes, text_in(body, "what"), text_in(body, "page"));
    });
    post("/other", [&](const Json& body, Text, Changes) {
        return sitting.other(text_in(body, "name"), text_in(body, "page"));
    });
    post("/lines", [&](const Json&, Text revision, Changes changes) {
        return sitting.lines(revision, changes);
    });
    post("/write", [&](const Json& body, Text revision, Changes changes) {
        return sitting.write(revision, changes,
                             body.contains("name") ? std::optional(text_in(body, "name"))
                                                   : std::nullopt);
    });
}

void guard(httplib::Server& server, const std::string& token, int port) {
    const std::string here = "127.0.0.1:" + std::to_string(port);
    server.set_pre_routing_handler(
        [=](const httplib::Request& request, httplib::Response& response) {
            const bool own_host = request.get_header_value("Host") == here;
            const bool own_origin = !request.has_header("Origin") ||
                                    request.get_header_value("Origin") == "http://" + here;
            if (own_host && own_origin && request.has_param(token.c_str())) {
                return httplib::Server::HandlerResponse::Unhandled;
            }
            refuse(response, 403, "open the address that vrid live printed, with its token");
            return httplib::Server::HandlerResponse::Handled;
        });
    server.set_error_handler([](const httplib::Request& request, httplib::Response& response) {
        if (response.body.empty()) { // of the library's own refusals
            refuse(response, response.status, why_refused(request, response.status));
        }
    });
    server.set_default_headers(
        {{"Cache-Control", "no-store"},
         {"Referrer-Policy", "no-referrer"},
         {"X-Content-Type-Options", "nosniff"},
         {"Content-Security-Policy",
          "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src "
          "data:; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"}});
}

} // namespace

std::size_t request_threads(double addresses) {
    constexpr double stack = 8 << 20; // bytes, of the usual limit
    constexpr double share = 0.25;    // the rest is for what the requests compute
    constexpr double fewest = 4;
    return static_cast<std::size_t>(
        std::clamp(share * addresses / stack, fewest, static_cast<double>(threads)));
}

void serve(Sitting& sitting, int port, const std::function<void(const std::string&)>& ready,
           const std::function<bool()>& ended) {
    httplib::Server server;
    server.new_task_queue = [] {
        return new httplib::ThreadPool(request_threads(free_memory().process));
    };
    server.set_payload_max_length(longest_body);
    server.set_read_timeout(5, 0);
    server.set_write_timeout(5, 0);
    server.set_keep_alive_timeout(2);
    socket_t listening = INVALID_SOCKET;
    server.set_socket_options([&](socket_t socket) { // a port in use is not shared with another
        const int yes = 1;
        setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
        listening = socket;
    });
    const char* const host = "127.0.0.1";
    const int found =
        port > 0 ? (server.bind_to_port(host, port) ? port : -1) : server.bind_to_any_port(host);
    if (found <= 0) {
        throw OutputError("--port", "port " + std::to_string(port) + " is taken; name another");
    }
    // The library lets five wait to be taken; of more at once some would find nobody.
    listen(listening, static_cast<int>(threads));
    const std::string token = new_token();
    guard(server, token, found);
    add_pages(server, token);
    add_requests(server, sitting);
    ready("http://127.0.0.1:" + std::to_string(found) + "/?" + token);
    std::atomic<bool> done{false};
    std::thread watch([&] {
        while (!done && !(ended() && server.is_running())) {
            std::this_thread::sleep_for(std::chrono::milliseconds(50));
        }
        sitting.stop();
        server.stop();
    });
    server.listen_after_bind();
    done = true;
    watch.join();
}

} // namespace vrid
