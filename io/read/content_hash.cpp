#include "io/read/content_hash.hpp"

#include <cstdint>

namespace vrid {

namespace {

// Two 64-bit halves; the product below uses 32-bit limbs, so no 128-bit integer type is needed.
struct Wide {
    std::uint64_t high, low;
};

constexpr Wide offset_basis{0x6c62272e07bb0142ULL, 0x62b821756295c58dULL};

// The prime is 2^88 + 0x13b: a shift by 24 of the upper half plus a small product.
Wide times_prime(Wide a) {
    constexpr std::uint64_t small = 0x13b;
    const std::uint64_t bottom = (a.low & 0xffffffffULL) * small;
    const std::uint64_t middle = (a.low >> 32) * small + (bottom >> 32);
    const std::uint64_t carry = middle >> 32;
    return {a.high * small + carry + (a.low << 24), (middle << 32) | (bottom & 0xffffffffULL)};
}

Wide add(Wide hash, std::uint8_t byte) {
    hash.low ^= byte;
    return times_prime(hash);
}

} // namespace

std::string content_hash(const std::vector<std::string_view>& texts) {
    Wide hash = offset_basis;
    for (const std::string_view text : texts) {
        for (std::uint64_t size = text.size(), i = 0; i < 8; ++i, size >>= 8) {
            hash = add(hash, static_cast<std::uint8_t>(size & 0xff));
        }
        for (const char c : text) {
            hash = add(hash, static_cast<std::uint8_t>(c));
        }
    }
    constexpr std::string_view digits = "0123456789abcdef";
    std::string hex;
    for (const std::uint64_t half : {hash.high, hash.low}) {
        for (int shift = 60; shift >= 0; shift -= 4) {
            hex += digits[(half >> shift) & 0xf];
        }
    }
    return hex;
}

} // namespace vrid
