#include "logbook/signing_key.h"

#include "support/catch.h"
#include "support/refusal.h"

namespace signing_key_test {

using logbook::SigningKey;

TEST_CASE("a key signs as the standard's examples do", "[logbook]") {
  struct Example {
    const char* seed;
    const char* public_key;
    std::string message;
    const char* signature;
  };
  // Source: RFC 8032, section 7.1, TEST 1 and TEST 2 (from memory; a wrong digit would not agree).
  for (const auto& example : {
           Example{
               "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
               "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
               "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61"
               "e39701cf9b46bd25bf5f0595bbe24655141438e7a100b"},
           Example{
               "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
               "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "r",
               "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458"
               "f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"},
       }) {
    const auto key = SigningKey::of_seed(example.seed);
    CHECK(key.public_key() == example.public_key);
    CHECK(key.seed() == example.seed);
    CHECK(key.sign(example.message) == example.signature);
    CHECK(logbook::signed_by(example.public_key, example.message, example.signature));
    CHECK_FALSE(logbook::signed_by(example.public_key, example.message + "x", example.signature));
  }
}

TEST_CASE("nobody else's key or signature is taken for one", "[logbook]") {
  const auto one = SigningKey::make();
  const auto other = SigningKey::make();
  CHECK(one.seed() != other.seed());
  const auto signature = one.sign("text");
  CHECK(logbook::signed_by(one.public_key(), "text", signature));
  CHECK_FALSE(logbook::signed_by(other.public_key(), "text", signature));
  CHECK_FALSE(logbook::signed_by("", "text", signature));
  CHECK_FALSE(logbook::signed_by(one.public_key(), "text", ""));
  CHECK_FALSE(logbook::signed_by(one.public_key(), "text", signature + "00"));
  CHECK_FALSE(logbook::signed_by(std::string(64, 'x'), "text", signature));
  for (const auto* seed : {"", "abc", "g"}) {
    CHECK_THAT(refusal_of([&] { return SigningKey::of_seed(seed); }),
               ContainsSubstring("this is no key"));
  }
}

}  // namespace signing_key_test
