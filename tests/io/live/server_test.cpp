// The live page's requests without a browser, valid and hostile.
#include "io/live/server.hpp"

#include <atomic>
#include <fstream>
#include <future>
#include <thread>

#include <catch2/catch.hpp>
#include <httplib.h>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include "tests/whole/run_program.hpp"

using namespace vrid;
using vrid::tests::content;
using vrid::tests::TemporaryFolder;

namespace {

const std::string strip_file = R"(# a strip
format = 1
name = "strip"
[planform]
rectangle_mm = [300, 40]
running_length_mm = 240
[core]
interpolation = "linear"
thickness_mm = [[-150, 7.0], [150, 7.0]] # kept
strips = [ { material = "poplar", width_mm = 12 } ]
[[layer]]
name = "core"
core = true
)";

/// A server of its own on a free port, ended with the object.
struct Served {
    TemporaryFolder folder;
    std::string file = folder.file("board.toml", strip_file);
    Sitting sitting{file, {}};
    std::atomic<bool> ended{false};
    std::promise<std::string> told;
    std::thread thread{[this] {
        serve(
            sitting, 0, [this](const std::string& address) { told.set_value(address); },
            [this] { return ended.load(); });
    }};
    std::string address = told.get_future().get();
    std::string token = address.substr(address.find('?'));
    int port = std::stoi(address.substr(address.find(':', 7) + 1));
    httplib::Client client{"127.0.0.1", port};

    Served() { client.set_read_timeout(60, 0); }
    ~Served() {
        ended = true;
        thread.join();
    }
    int status(const std::string& path, const std::string& body) {
        const auto got = client.Post((path + token).c_str(), body, "application/json");
        return got ? got->status : -1;
    }
    Json json(const std::string& path, const Json& body) {
        return Json::parse(
            client.Post((path + token).c_str(), body.dump(), "application/json")->body);
    }
    std::string revision() {
        return Json::parse(client.Get(("/board" + token).c_str())->body)["revision"];
    }
};

/// A connection that sends these bytes and then nothing more.
class Silent {
  public:
    Silent(int port, const std::string& bytes) : socket_(socket(AF_INET, SOCK_STREAM, 0)) {
        sockaddr_in to{};
        to.sin_family = AF_INET;
        to.sin_port = htons(static_cast<std::uint16_t>(port));
        to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        reached_ = connect(socket_, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0 &&
                   send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL) ==
                       static_cast<ssize_t>(bytes.size());
    }
    ~Silent() { close(socket_); }
    Silent(const Silent&) = delete;
    Silent& operator=(const Silent&) = delete;
    [[nodiscard]] bool reached() const { return reached_; }

  private:
    int socket_;
    bool reached_ = false;
};

} // namespace

TEST_CASE("under a limit of addresses the threads for requests take a quarter of what is left") {
    CHECK(request_threads(320e6) == 9);
    CHECK(request_threads(1.2e9) == 35);
    CHECK(request_threads(16e9) == 128);
    CHECK(request_threads(0) == 4);
}

TEST_CASE(
    "the live server answers its own page only, and hostile requests leave file and server alone") {
    Served live;
    CHECK(live.client.Get(("/" + live.token).c_str())->status == 200);
    // on one machine compressing takes longer than all else
    const httplib::Headers packs{{"Accept-Encoding", "gzip, br"}};
    CHECK_FALSE(
        live.client.Get(("/board" + live.token).c_str(), packs)->has_header("Content-Encoding"));
    CHECK(live.client.Get("/")->status == 403);
    CHECK(live.client.Get("/?wrong")->status == 403);
    CHECK(
        live.client.Get(("/" + live.token).c_str(), {{"Origin", "http://evil.example"}})->status ==
        403);
    CHECK(live.client.Get(("/" + live.token).c_str(), {{"Host", "evil.example"}})->status == 403);
    CHECK(live.client.Get(("/../board.toml" + live.token).c_str())->status == 404);
    for (const char* path : {"/favicon.ico", "/solve"}) { // /solve wants a POST
        const auto none = live.client.Get((path + live.token).c_str());
        CHECK(none->status == 404);
        const Json problem = Json::parse(none->body)["problems"][0];
        CHECK_THAT(problem["message"], Catch::Contains("\"GET " + std::string(path) + "\"") &&
                                           Catch::Contains("POST /shape /solve"));
    }
    CHECK(live.status("/solve", "{") == 400);
    CHECK(live.status("/solve", "[]") == 400);
    CHECK(live.status("/solve", R"({"revision":7,"changes":[]})") == 400);
    CHECK(live.status("/solve", R"({"revision":"old","changes":{}})") == 409);
    CHECK_THAT(
        live.json("/solve", {{"revision", live.revision()}, {"changes", {{"no.value", 1}}}}).dump(),
        Catch::Contains("problems") && Catch::Contains("no.value"));
    const int large = live.status("/write", std::string(10U << 20U, ' '));
    CHECK((large == 413 || large == -1)); // the connection may be closed before all is sent
    Json write{{"revision", live.revision()}, {"changes", {{"core.thickness_mm[0]", 6.9}}}};
    for (const std::string name :
         {"", "../x.toml", "/tmp/x.toml", ".x.toml", "x.txt", "board.toml"}) {
        write["name"] = name;
        CAPTURE(name);
        CHECK(live.status("/write", write.dump()) == 422);
    }
    std::filesystem::create_symlink("outside.toml", live.folder.path() / "link.toml");
    write["name"] = "link.toml";
    CHECK(live.status("/write", write.dump()) == 422);
    std::filesystem::remove(live.folder.path() / "link.toml");
    std::vector<std::unique_ptr<httplib::Client>> many;
    for (int i = 0; i < 100; ++i) {
        many.push_back(std::make_unique<httplib::Client>("127.0.0.1", live.port));
        many.back()->set_keep_alive(true);
        CHECK(many.back()->Get("/")->status == 403);
    }
    CHECK(live.client.Get(("/" + live.token).c_str())->status == 200);
    CHECK(content(live.file) == strip_file);
    CHECK(live.folder.names() == std::vector<std::string>{"board.toml"});
}

TEST_CASE(
    "a hundred connections that fall silent, in the middle of a request too, keep nobody from "
    "the live page") {
    Served live;
    const std::string host = "127.0.0.1:" + std::to_string(live.port);
    const std::string half = "POST /write" + live.token + " HTTP/1.1\r\nHost: " + host +
                             "\r\nContent-Length: 100\r\n\r\n{\"revision\":";
    std::vector<std::unique_ptr<Silent>> silent;
    for (int i = 0; i < 100; ++i) {
        const std::string& bytes = i % 3 == 0 ? half : i % 3 == 1 ? "GET /boa" : "";
        silent.push_back(std::make_unique<Silent>(live.port, bytes));
        CHECK(silent.back()->reached());
    }
    for (const std::string nonsense : {"\r\n\r\n", "GET / HTTP/9.9\r\n\r\n", "\x16\x03\x01\x02",
                                       "GET /%00%ff%2e%2e/ HTTP/1.1\r\n\r\n"}) {
        silent.push_back(std::make_unique<Silent>(live.port, nonsense));
    }
    const auto page = live.client.Get(("/" + live.token).c_str());
    REQUIRE(page);
    CHECK(page->status == 200);
    CHECK(content(live.file) == strip_file);
}

TEST_CASE("a newer change on the live page ends what is still to be solved of the older ones") {
    Served live;
    const std::string revision = live.revision();
    std::vector<std::future<int>> answers;
    constexpr int many = 24;
    for (int i = 0; i < many; ++i) {
        const std::string body = Json{{"revision", revision},
                                      {"page", "one"},
                                      {"changes", {{"core.thickness_mm[0]", 6.0 + 0.01 * i}}}}
                                     .dump();
        answers.push_back(std::async(std::launch::async, [&live, body] {
            httplib::Client own("127.0.0.1", live.port);
            own.set_read_timeout(60, 0);
            const auto got = own.Post(("/solve" + live.token).c_str(), body, "application/json");
            return got ? got->status : -1;
        }));
    }
    std::map<int, int> by_status;
    for (std::future<int>& answer : answers) {
        ++by_status[answer.get()];
    }
    CHECK(by_status[200] >= 1); // the newest
    CHECK(by_status[410] >= 1);
    CHECK(by_status[200] + by_status[410] == many);
}

TEST_CASE(
    "what moves the mesh's lines is read anew on the live page: numbers are those of the file "
    "that is written") {
    Served live;
    const Json changes{{"planform.rectangle_mm[1]", 44},
                       {"core.strips[0].material", "ash"},
                       {"core.thickness_mm[1]", 7.2}};
    const Json body{{"revision", live.revision()}, {"changes", changes}};
    const Json solved = live.json("/solve", body);
    double half_width = 0;
    const Json shape = live.json("/shape", body);
    for (const Json& point : shape["outline"]) {
        half_width = std::max(half_width, point[1].get<double>());
    }
    CHECK(half_width == Approx(22));
    CHECK(live.json("/lines", body)["lines"].size() == 6);
    Json over = body;
    over["what"] = "deflection free-modes";
    CHECK(live.json("/over", over)["cells"].size() > 10);
    over["what"] = "sanding free-modes mode 1";
    CHECK(live.json("/over", over)["cells"].size() > 1);
    over["what"] = "deflection nose-twist"; // a strip has no feet
    CHECK(live.status("/over", over.dump()) == 422);
    Json refused = body;
    refused["changes"]["planform.rectangle_mm[1]"] = 1e7;
    CHECK(live.status("/shape", refused.dump()) == 422);
    REQUIRE(live.status("/write", body.dump()) == 200);
    std::string expected = strip_file;
    const auto becomes = [&](const std::string& from, const std::string& to) {
        const std::size_t at = expected.find(from);
        expected = expected.substr(0, at).append(to).append(expected.substr(at + from.size()));
    };
    becomes("300, 40", "300, 44");
    becomes("poplar", "ash");
    becomes("150, 7.0]]", "150, 7.2]]");
    CHECK(content(live.file) == expected);
    const Json again =
        live.json("/solve", {{"revision", live.revision()}, {"changes", Json::object()}});
    REQUIRE(again["numbers"].size() == solved["numbers"].size());
    for (std::size_t i = 0; i < solved["numbers"].size(); ++i) {
        CHECK(again["numbers"][i]["value"].get<double>() ==
              Approx(solved["numbers"][i]["value"].get<double>())
                  .margin(solved["numbers"][i]["error"].get<double>()));
    }
}

TEST_CASE("a change on the live page gives the numbers of the file it writes, and changes that "
          "line only") {
    Served live;
    const Json body{{"revision", live.revision()}, {"changes", {{"core.thickness_mm[0]", 6.85}}}};
    const Json solved = live.json("/solve", body);
    Json refused = body;
    refused["changes"]["core.thickness_mm[0]"] = -1;
    CHECK(live.status("/shape", refused.dump()) == 422);
    CHECK(live.json("/lines", body)["lines"].size() == 2);
    CHECK(live.status("/write", body.dump()) == 200);
    std::string expected = strip_file;
    expected.replace(expected.find("-150, 7.0") + 6, 3, "6.85");
    CHECK(content(live.file) == expected);
    const Json again =
        live.json("/solve", {{"revision", live.revision()}, {"changes", Json::object()}});
    REQUIRE(again["numbers"].size() == solved["numbers"].size());
    for (std::size_t i = 0; i < solved["numbers"].size(); ++i) {
        CHECK(again["numbers"][i]["shown"] == solved["numbers"][i]["shown"]);
    }
    CHECK(live.status("/write", body.dump()) == 409); // the file is another now
    std::ofstream(live.file) << "broken";
    CHECK(live.status("/write", body.dump()) == 409);
    CHECK(content(live.file) == "broken");
}
