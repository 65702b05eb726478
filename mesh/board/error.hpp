#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace vrid {

/// One thing that is wrong with the user's files or arguments.
struct Problem {
    std::string place;   ///< "file:line:column", or the option's name
    std::string message; ///< key, value found, what is accepted, nearest name
};

/// The user's files or arguments are wrong (exit status 2). Carries all problems of one reading.
class InputError : public std::runtime_error {
  public:
    /// All problems of one reading; what() has a line for each.
    explicit InputError(std::vector<Problem> problems)
        : std::runtime_error(text(problems)), problems_(std::move(problems)) {}
    /// A single problem. \param place see Problem \param message see Problem
    InputError(std::string place, std::string message)
        : InputError(std::vector<Problem>{{std::move(place), std::move(message)}}) {}

    /// In the order of the reading, at least one.
    [[nodiscard]] const std::vector<Problem>& problems() const noexcept { return problems_; }

  private:
    static std::string text(const std::vector<Problem>& problems) {
        std::string all;
        for (const Problem& p : problems) {
            if (!all.empty()) {
                all.append("\n");
            }
            if (!p.place.empty()) {
                all.append(p.place).append(": ");
            }
            all.append(p.message);
        }
        return all;
    }
    std::vector<Problem> problems_;
};

/// \throws InputError if there are any
inline void throw_if_any(std::vector<Problem> problems) {
    if (!problems.empty()) {
        throw InputError(std::move(problems));
    }
}

/// The computation could not be completed (exit status 3): the stage and the telling number.
class SolveError : public std::runtime_error {
  public:
    /// what() is "stage: what".
    SolveError(const std::string& stage, const std::string& what)
        : std::runtime_error(stage + ": " + what) {}
};

/// The output could not be written (exit status 4).
class OutputError : public std::runtime_error {
  public:
    /// what() is "path: why".
    OutputError(const std::string& path, const std::string& why)
        : std::runtime_error(path + ": " + why) {}
};

} // namespace vrid
