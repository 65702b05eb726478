#include "tests/whole/browser.hpp"

#include <chrono>
#include <csignal>
#include <fstream>
#include <stdexcept>
#include <thread>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

namespace vrid::tests {
namespace {

// The protocol's name of the key under which an element's reference stands (W3C WebDriver, 12).
const char* const element_key = "element-6066-11e4-a52e-4f735466cecf";

int port_in(const std::string& line) { // "ChromeDriver was started successfully on port 41313."
    return std::stoi(line.substr(line.find("port ") + 5));
}

std::string decoded(const std::string& text) { // base64
    const std::string letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string bytes;
    unsigned value = 0;
    int bits = 0;
    for (const char c : text) {
        const std::size_t at = letters.find(c);
        if (at == std::string::npos) {
            break;
        }
        value = (value << 6U | static_cast<unsigned>(at)) & 0xffffU;
        bits += 6;
        if (bits >= 8) {
            bits -= 8;
            bytes += static_cast<char>(value >> static_cast<unsigned>(bits) & 0xffU);
        }
    }
    return bytes;
}

} // namespace

const char* const key_tab = "\uE004";
const char* const key_enter = "\uE007";
const char* const key_up = "\uE013";
const char* const key_down = "\uE015";
const char* const key_shift = "\uE008";
const char* const key_control = "\uE009";
const char* const key_escape = "\uE00C";

RunningProgram::RunningProgram(const std::vector<std::string>& words, const std::string& mark) {
    int pipe_ends[2] = {-1, -1};
    if (pipe(pipe_ends) != 0) {
        throw std::runtime_error("no pipe");
    }
    process_ = fork();
    if (process_ == 0) {
        dup2(pipe_ends[1], STDOUT_FILENO);
        close(pipe_ends[0]);
        close(pipe_ends[1]);
        dup2(open("/dev/null", O_WRONLY), STDERR_FILENO);
        std::vector<char*> arguments;
        for (const std::string& word : words) {
            arguments.push_back(const_cast<char*>(word.c_str()));
        }
        arguments.push_back(nullptr);
        execvp(arguments[0], arguments.data());
        _exit(127);
    }
    close(pipe_ends[1]);
    output_ = pipe_ends[0];
    char c = 0;
    while (read(output_, &c, 1) == 1) {
        if (c != '\n') {
            line_ += c;
        } else if (line_.find(mark) != std::string::npos) {
            return;
        } else {
            line_.clear();
        }
    }
    close(output_);
    waitpid(process_, nullptr, 0);
    throw std::runtime_error(words.front() + " could not be started: is it installed?");
}

int RunningProgram::interrupted() {
    int status = 0;
    kill(process_, SIGINT);
    waitpid(process_, &status, 0);
    process_ = -1;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

RunningProgram::~RunningProgram() {
    if (process_ > 0) {
        kill(process_, SIGTERM);
        waitpid(process_, nullptr, 0);
    }
    close(output_);
}

Browser::Browser(int width, int height)
    : driver_({"chromedriver", "--port=0"}, "successfully on port"),
      client_("127.0.0.1", port_in(driver_.line())) {
    constexpr int longest_start = 120; // [s]
    client_.set_read_timeout(longest_start, 0);
    const std::string size =
        "--window-size=" + std::to_string(width) + "," + std::to_string(height);
    const Json options{{"args",
                        {"--headless=new", "--no-sandbox", "--disable-gpu",
                         "--disable-dev-shm-usage", "--hide-scrollbars", size}}};
    const Json made =
        ask("POST", "", {{"capabilities", {{"alwaysMatch", {{"goog:chromeOptions", options}}}}}});
    session_.assign(1, '/').append(made.at("sessionId").get<std::string>());
}

Browser::~Browser() {
    client_.Delete(("/session" + session_).c_str());
}

Browser::Json Browser::ask(const std::string& method, const std::string& path, const Json& body) {
    const std::string whole = "/session" + session_ + path;
    const auto got =
        method == "POST"
            ? client_.Post(whole.c_str(), body.is_null() ? "{}" : body.dump(), "application/json")
            : client_.Get(whole.c_str());
    if (!got) {
        throw std::runtime_error("chromedriver does not answer " + path);
    }
    const Json value = Json::parse(got->body).at("value");
    if (got->status != 200) {
        throw std::runtime_error(path + ": " + value.value("message", "failed"));
    }
    return value;
}

void Browser::open(const std::string& address) {
    ask("POST", "/url", {{"url", address}});
}

void Browser::resize(int width, int height) {
    devtools("Emulation.setDeviceMetricsOverride",
             {{"width", width}, {"height", height}, {"deviceScaleFactor", 1}, {"mobile", false}});
}

Browser::Json Browser::script(const std::string& body, const Json& arguments) {
    return ask("POST", "/execute/sync", {{"script", body}, {"args", arguments}});
}

bool Browser::comes(const std::string& expression) {
    constexpr int tries = 1200;
    for (int i = 0; i < tries; ++i) {
        if (script("return Boolean(" + expression + ")") == true) {
            return true;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
    return false;
}

std::string Browser::find(const std::string& selector) {
    return ask("POST", "/element", {{"using", "css selector"}, {"value", selector}})
        .at(element_key)
        .get<std::string>();
}

std::string Browser::label(const std::string& element) {
    return ask("GET", "/element/" + element + "/computedlabel").get<std::string>();
}

std::string Browser::role(const std::string& element) {
    return ask("GET", "/element/" + element + "/computedrole").get<std::string>();
}

void Browser::click(const std::string& element) {
    ask("POST", "/element/" + element + "/click");
}

void Browser::type(const std::string& element, const std::string& keys) {
    ask("POST", "/element/" + element + "/value", {{"text", keys}});
}

void Browser::press(const std::vector<std::string>& keys, const std::string& held) {
    Json actions = Json::array();
    const auto add = [&](const char* what, const std::string& key) {
        actions.push_back({{"type", what}, {"value", key}});
    };
    if (!held.empty()) {
        add("keyDown", held);
    }
    for (const std::string& key : keys) {
        add("keyDown", key);
        add("keyUp", key);
    }
    if (!held.empty()) {
        add("keyUp", held);
    }
    perform({{"type", "key"}, {"id", "keys"}, {"actions", actions}});
}

void Browser::mouse(const Json& actions) {
    perform({{"type", "pointer"},
             {"id", "mouse"},
             {"parameters", {{"pointerType", "mouse"}}},
             {"actions", actions}});
}

void Browser::perform(const Json& device) {
    ask("POST", "/actions", {{"actions", Json::array({device})}});
}

void Browser::press_down(const std::string& element) {
    const Json origin{{element_key, element}};
    const Json to{{"type", "pointerMove"}, {"duration", 0}, {"origin", origin}, {"x", 0}, {"y", 0}};
    const Json down{{"type", "pointerDown"}, {"button", 0}};
    mouse(Json::array({to, down}));
}

void Browser::move_by(int x, int y) {
    const Json to{
        {"type", "pointerMove"}, {"duration", 50}, {"origin", "pointer"}, {"x", x}, {"y", y}};
    mouse(Json::array({to}));
}

void Browser::release() {
    const Json up{{"type", "pointerUp"}, {"button", 0}};
    mouse(Json::array({up}));
}

std::string Browser::tab() {
    return ask("GET", "/window").get<std::string>();
}

void Browser::show_tab(const std::string& tab) {
    ask("POST", "/window", {{"handle", tab}});
}

std::string Browser::new_tab() {
    return ask("POST", "/window/new", {{"type", "tab"}}).at("handle").get<std::string>();
}

Browser::Json Browser::devtools(const std::string& command, const Json& parameters) {
    return ask("POST", "/goog/cdp/execute", {{"cmd", command}, {"params", parameters}});
}

void Browser::screenshot(const std::string& file) {
    std::ofstream(file, std::ios::binary) << decoded(ask("GET", "/screenshot").get<std::string>());
}

} // namespace vrid::tests
