#pragma once

#include <string>
#include <vector>

#include "benchmarks/published/check.hpp"

namespace vrid::published {

struct Outcome {
    std::string family;
    const Check* check;
    Ours ours;
    double seconds;
    [[nodiscard]] double difference() const { return ours.value - check->published; }
    [[nodiscard]] bool within() const;
    /// "passed", "FAILED" or the size of a difference between models.
    [[nodiscard]] std::string verdict() const;
};

std::string text_table(const std::vector<Outcome>& outcomes);
std::string json(const std::vector<Outcome>& outcomes);
/// The page benchmarks/README.md.
std::string page(const std::vector<Outcome>& outcomes);
/// "n passed, n failed, n differences between models".
std::string summary(const std::vector<Outcome>& outcomes);

} // namespace vrid::published
