#include "weatherstruck/base/digest.h"

#include <gtest/gtest.h>

#include <string>

namespace weatherstruck::base {
namespace {

std::string hex(const Sha256& hash) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out;
  for (const std::uint8_t byte : hash) {
    out += digits[byte / 16U];
    out += digits[byte % 16U];
  }
  return out;
}

// NIST, "Examples with intermediate values", SHA-256 (one block, two blocks, and the empty message), from
// memory.
TEST(Sha256, IsThatOfThePublishedExamples) {
  EXPECT_EQ(hex(sha256("abc")), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(hex(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(hex(sha256("")), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(hex(sha256(std::string(1000000, 'a'))),
            "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

// Every place of the padding; the sums were made with sha256sum of GNU coreutils 9.1.
TEST(Sha256, PadsMessagesThatJustFillABlock) {
  EXPECT_EQ(hex(sha256(std::string(55, 'x'))),
            "d5e285683cd4efc02d021a5c62014694958901005d6f71e89e0989fac77e4072");
  EXPECT_EQ(hex(sha256(std::string(56, 'x'))),
            "04c26261370ee7541549d16dee320c723e3fd14671e66a099afe0a377c16888e");
  EXPECT_EQ(hex(sha256(std::string(64, 'x'))),
            "7ce100971f64e7001e8fe5a51973ecdfe1ced42befe7ee8d5fd6219506b5393c");
}

// RFC 4648, section 10.
TEST(Base64, IsThatOfThePublishedExamples) {
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foo"), "Zm9v");
  EXPECT_EQ(base64("foob"), "Zm9vYg==");
  EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

// Content Security Policy Level 3, 2.3.1, for the form; the sum was made with openssl.
TEST(PolicyHash, NamesAText) {
  EXPECT_EQ(policy_hash("doSomething();"), "sha256-RFWPLDbv2BY+rCkDzsE+0fr8ylGr2R2faWMhq4lfEQc=");
}

}  // namespace
}  // namespace weatherstruck::base
