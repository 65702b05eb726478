#pragma once

#include <chrono>

namespace vrid {

/// Adds the time from its making to its end to a sum of seconds.
class Stopwatch {
  public:
    explicit Stopwatch(double& seconds)
        : seconds_(seconds), start_(std::chrono::steady_clock::now()) {}
    Stopwatch(const Stopwatch&) = delete;
    Stopwatch& operator=(const Stopwatch&) = delete;
    ~Stopwatch() {
        seconds_ +=
            std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
    }

  private:
    double& seconds_;
    std::chrono::steady_clock::time_point start_;
};

} // namespace vrid
