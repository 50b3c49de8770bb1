#pragma once

#include <array>
#include <string>
#include <string_view>

namespace logbook {

// A key with which a person signs: Ed25519 (RFC 8032), computed by libsodium.
class SigningKey {
 public:
  static constexpr std::size_t kSeedDigits = 64;

  // A new one.
  [[nodiscard]] static SigningKey make();
  // The one of this seed, 64 hexadecimal digits. InputError where it is none.
  [[nodiscard]] static SigningKey of_seed(std::string_view digits);

  ~SigningKey();
  SigningKey(const SigningKey&) = default;
  SigningKey& operator=(const SigningKey&) = default;

  // What to keep, and to keep secret.
  [[nodiscard]] std::string seed() const;
  // What others know it by, as 64 hexadecimal digits in lower case.
  [[nodiscard]] std::string public_key() const;

  // The signature of these bytes, as 128 hexadecimal digits.
  [[nodiscard]] std::string sign(std::string_view bytes) const;

 private:
  SigningKey() = default;

  std::array<unsigned char, 32> public_key_{};
  std::array<unsigned char, 64> secret_{};  // as libsodium has it: the seed, then the public key
};

// Whether the holder of this key signed these bytes. False too where key or signature are none.
[[nodiscard]] bool signed_by(std::string_view public_key, std::string_view bytes,
                             std::string_view signature);

}  // namespace logbook
