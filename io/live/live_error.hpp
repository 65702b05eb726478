#pragma once

#include <stdexcept>
#include <string>

namespace vrid {

/// The page and the file on the disk are no longer about the same board: nothing was done.
class FileChanged : public std::runtime_error {
  public:
    explicit FileChanged(const std::string& why) : std::runtime_error(why) {}
};

/// A newer change has made a computation idle.
class Superseded : public std::runtime_error {
  public:
    Superseded() : std::runtime_error("a newer change has taken its place") {}
};

} // namespace vrid
