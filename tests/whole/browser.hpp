#pragma once

#include <memory>
#include <string>
#include <vector>

#include <httplib.h>
#undef _res // of the resolver: Eigen has locals of that name
#include <nlohmann/json.hpp>

namespace vrid::tests {

/// A program that goes on running, ended with the object.
class RunningProgram {
  public:
    /// Starts words[0] with the rest and reads its output up to the first line with `mark`.
    /// \throws std::runtime_error when it ends before, as when it is not installed
    RunningProgram(const std::vector<std::string>& words, const std::string& mark);
    ~RunningProgram();
    RunningProgram(const RunningProgram&) = delete;
    RunningProgram& operator=(const RunningProgram&) = delete;
    [[nodiscard]] const std::string& line() const { return line_; } ///< the one with the mark
    int interrupted(); ///< sends Ctrl-C and waits: its exit status

  private:
    int process_ = -1, output_ = -1;
    std::string line_;
};

/// Chromium without a window, driven by the W3C WebDriver protocol through chromedriver.
class Browser {
  public:
    using Json = nlohmann::json;

    /// \throws std::runtime_error when chromium or chromedriver is not installed
    Browser(int width, int height);
    ~Browser();

    void open(const std::string& address);
    void resize(int width, int height);
    /// What the body of a function returns; its arguments are `arguments`.
    Json script(const std::string& body, const Json& arguments = Json::array());
    /// Whether it comes true within a minute.
    bool comes(const std::string& expression);
    /// The element that the selector finds, for the calls below. \throws if there is none
    std::string find(const std::string& selector);
    std::string label(const std::string& element); ///< accessible name, as the browser computes it
    std::string role(const std::string& element);
    void click(const std::string& element);
    void type(const std::string& element, const std::string& keys);
    /// Presses the keys one after another wherever the focus is; `held` stays down meanwhile.
    void press(const std::vector<std::string>& keys, const std::string& held = "");
    void press_down(const std::string& element); ///< the mouse on its middle
    void move_by(int x, int y);                  ///< the mouse
    void release();
    std::string tab();                     ///< that is shown
    void show_tab(const std::string& tab); ///< one of tab() or new_tab()
    std::string new_tab();
    Json devtools(const std::string& command, const Json& parameters);
    void screenshot(const std::string& file);

  private:
    Json ask(const std::string& method, const std::string& path, const Json& body = Json());
    void mouse(const Json& actions);
    void perform(const Json& device); ///< what an input device does

    RunningProgram driver_;
    httplib::Client client_;
    std::string session_;
};

/// Keys that are no letters, as WebDriver names them.
extern const char* const key_tab;
extern const char* const key_enter;
extern const char* const key_escape;
extern const char* const key_up;
extern const char* const key_down;
extern const char* const key_shift;
extern const char* const key_control;

} // namespace vrid::tests
