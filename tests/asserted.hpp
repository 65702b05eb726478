#pragma once

namespace vrid::tests {

/// How many of `all` seeded boards or texts a test takes: all of them, but a build with asserts,
/// made for the sanitizers, an eighth: there each takes ten to thirty times as long, and a fault of
/// memory shows on few as on many.
constexpr unsigned few_with_asserts(unsigned all) {
#ifdef NDEBUG
    return all;
#else
    return (all + 7) / 8;
#endif
}

} // namespace vrid::tests
