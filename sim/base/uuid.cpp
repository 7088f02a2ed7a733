#include "base/uuid.h"

#include <array>
#include <bit>
#include <cstdint>
#include <vector>

namespace cistern::base {

namespace {

using Bytes = std::vector<std::uint8_t>;
using Digest = std::array<std::uint32_t, 5>;

/// One block of 64 bytes into the digest. Source: FIPS 180-4, section 6.1.2.
void stir(Digest& digest, const std::uint8_t* block) {
    std::array<std::uint32_t, 80> w{};
    for (std::size_t t = 0; t < 16; ++t)
        for (std::size_t i = 0; i < 4; ++i) w[t] = w[t] << 8 | block[4 * t + i];
    for (std::size_t t = 16; t < 80; ++t)
        w[t] = std::rotl(w[t - 3] ^ w[t - 8] ^ w[t - 14] ^ w[t - 16], 1);
    auto [a, b, c, d, e] = digest;
    for (std::size_t t = 0; t < 80; ++t) {
        const std::uint32_t mixed = t < 20   ? ((b & c) ^ (~b & d)) + 0x5a827999u
                                    : t < 40 ? (b ^ c ^ d) + 0x6ed9eba1u
                                    : t < 60 ? ((b & c) ^ (b & d) ^ (c & d)) + 0x8f1bbcdcu
                                             : (b ^ c ^ d) + 0xca62c1d6u;
        const std::uint32_t next = std::rotl(a, 5) + mixed + e + w[t];
        e = d;
        d = c;
        c = std::rotl(b, 30);
        b = a;
        a = next;
    }
    const Digest worked{a, b, c, d, e};
    for (std::size_t i = 0; i < digest.size(); ++i) digest[i] += worked[i];
}

/// SHA-1 of bytes, padded to whole blocks with a one, zeros and their number of bits.
Digest sha1(Bytes bytes) {
    const std::uint64_t bits = 8 * static_cast<std::uint64_t>(bytes.size());
    bytes.push_back(0x80);
    while (bytes.size() % 64 != 56) bytes.push_back(0);
    for (int shift = 56; shift >= 0; shift -= 8)
        bytes.push_back(static_cast<std::uint8_t>(bits >> shift));
    Digest digest{0x67452301u, 0xefcdab89u, 0x98badcfeu, 0x10325476u, 0xc3d2e1f0u};
    for (std::size_t at = 0; at < bytes.size(); at += 64) stir(digest, &bytes[at]);
    return digest;
}

unsigned digitValue(char c) {
    return static_cast<unsigned>(c <= '9' ? c - '0' : (c | 0x20) - 'a' + 10);
}

} // namespace

std::string namedUuid(std::string_view space, std::string_view name) {
    Bytes bytes;
    unsigned digits = 0, value = 0;
    for (const char c : space) {
        if (c == '-') continue;
        value = value << 4 | digitValue(c);
        if (++digits % 2 == 0) bytes.push_back(static_cast<std::uint8_t>(value));
    }
    for (const char c : name) bytes.push_back(static_cast<std::uint8_t>(c));
    Digest digest = sha1(std::move(bytes));
    digest[1] = (digest[1] & 0xffff0fffu) | 0x5000u;     // version 5
    digest[2] = (digest[2] & 0x3fffffffu) | 0x80000000u; // of the usual variant
    constexpr std::string_view hexadecimal = "0123456789abcdef";
    std::string text;
    for (std::size_t i = 0; i < 32; ++i) {
        if (i == 8 || i == 12 || i == 16 || i == 20) text += '-';
        text += hexadecimal[digest[i / 8] >> (28 - 4 * (i % 8)) & 0xf];
    }
    return text;
}

} // namespace cistern::base
