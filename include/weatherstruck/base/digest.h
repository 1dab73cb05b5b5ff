#pragma once
// SHA-256 (FIPS 180-4), for naming a text by what it holds: a page says which style and script it allows.
#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace weatherstruck::base {

using Sha256 = std::array<std::uint8_t, 32>;
[[nodiscard]] Sha256 sha256(std::string_view bytes);
/// Base64 with padding (RFC 4648, section 4).
[[nodiscard]] std::string base64(std::string_view bytes);
/// "sha256-...", as a content security policy names an inline style or script.
[[nodiscard]] std::string policy_hash(std::string_view bytes);

}  // namespace weatherstruck::base
