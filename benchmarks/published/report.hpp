#pragma once

#include <string>
#include <vector>

#include "benchmarks/published/check.hpp"

namespace vrid::published {

struct Outcome {
    std::string family;
    const Check* check;
    Ours ours;
    [[nodiscard]] double difference() const { return ours.value - check->published; }
    [[nodiscard]] bool within() const;
    /// "passed", "FAILED" or, where nothing is judged, what kind of difference and its size.
    [[nodiscard]] std::string verdict() const;
};

std::string text_table(const std::vector<Outcome>& outcomes);
std::string json(const std::vector<Outcome>& outcomes);
/// The page benchmarks/README.md. \param measured its section of measured specimens
std::string page(const std::vector<Outcome>& outcomes, const std::string& measured);
/// How many there are of each verdict.
std::string summary(const std::vector<Outcome>& outcomes);

} // namespace vrid::published
