#include "weatherstruck/base/digest.h"

#include <cstddef>

namespace weatherstruck::base {
namespace {

using Word = std::uint32_t;

// First 32 bits of the fractional parts of the cube roots of the first 64 primes: FIPS 180-4, 4.2.2.
constexpr std::array<Word, 64> round_words{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};
// Likewise of the square roots of the first eight: 5.3.3.
constexpr std::array<Word, 8> start_words{0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a,
                                          0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19};

constexpr std::size_t block_bytes = 64;

Word turned(Word x, unsigned by) {
  return (x >> by) | (x << (32U - by));
}
Word byte_of(char c) {
  return static_cast<unsigned char>(c);
}

void take_block(std::array<Word, 8>& hash, std::string_view block) {
  std::array<Word, 64> w{};
  for (std::size_t t = 0; t < 16; ++t) {
    w[t] = (byte_of(block[4 * t]) << 24U) | (byte_of(block[4 * t + 1]) << 16U) |
           (byte_of(block[4 * t + 2]) << 8U) | byte_of(block[4 * t + 3]);
  }
  for (std::size_t t = 16; t < w.size(); ++t) {
    const Word s0 = turned(w[t - 15], 7) ^ turned(w[t - 15], 18) ^ (w[t - 15] >> 3U);
    const Word s1 = turned(w[t - 2], 17) ^ turned(w[t - 2], 19) ^ (w[t - 2] >> 10U);
    w[t] = s1 + w[t - 7] + s0 + w[t - 16];
  }
  auto [a, b, c, d, e, f, g, h] = hash;
  for (std::size_t t = 0; t < w.size(); ++t) {
    const Word first =
        h + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + round_words[t] + w[t];
    const Word second = (turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c));
    h = g;
    g = f;
    f = e;
    e = d + first;
    d = c;
    c = b;
    b = a;
    a = first + second;
  }
  const std::array<Word, 8> add{a, b, c, d, e, f, g, h};
  for (std::size_t i = 0; i < hash.size(); ++i)
    hash[i] += add[i];
}

}  // namespace

Sha256 sha256(std::string_view bytes) {
  std::string padded(bytes);
  padded += static_cast<char>(0x80);
  padded.append((block_bytes + block_bytes - 8 - padded.size() % block_bytes) % block_bytes, '\0');
  const std::uint64_t bits = bytes.size() * std::uint64_t{8};
  for (int shift = 56; shift >= 0; shift -= 8)
    padded += static_cast<char>((bits >> static_cast<unsigned>(shift)) & 0xFFU);
  std::array<Word, 8> hash = start_words;
  for (std::size_t at = 0; at < padded.size(); at += block_bytes)
    take_block(hash, std::string_view(padded).substr(at, block_bytes));
  Sha256 out{};
  for (std::size_t i = 0; i < out.size(); ++i)
    out[i] = static_cast<std::uint8_t>((hash[i / 4] >> (24U - 8U * static_cast<unsigned>(i % 4))) & 0xFFU);
  return out;
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t left = bytes.size() - i;
    const Word three = (byte_of(bytes[i]) << 16U) | (left > 1 ? byte_of(bytes[i + 1]) << 8U : 0U) |
                       (left > 2 ? byte_of(bytes[i + 2]) : 0U);
    out += digits[three >> 18U];
    out += digits[(three >> 12U) & 63U];
    out += left > 1 ? digits[(three >> 6U) & 63U] : '=';
    out += left > 2 ? digits[three & 63U] : '=';
  }
  return out;
}

std::string policy_hash(std::string_view bytes) {
  std::string raw;
  for (const std::uint8_t byte : sha256(bytes))
    raw += static_cast<char>(byte);
  return "sha256-" + base64(raw);
}

}  // namespace weatherstruck::base
