#include "logbook/signing_key.h"

#include <sodium.h>

#include <vector>

#include "failure/failure.h"
#include "logbook/digest.h"
#include "logbook/secret.h"

namespace logbook {
namespace {

static_assert(crypto_sign_SEEDBYTES == 32 && crypto_sign_PUBLICKEYBYTES == 32 &&
              crypto_sign_SECRETKEYBYTES == 64);

// Nothing where these are not just so many bytes.
std::vector<unsigned char> bytes_of(std::string_view digits, std::size_t count) {
  std::vector<unsigned char> bytes(count);
  std::size_t read = 0;
  if (digits.size() != 2 * count ||
      sodium_hex2bin(bytes.data(), bytes.size(), digits.data(), digits.size(), nullptr, &read,
                     nullptr) != 0 ||
      read != count) {
    return {};
  }
  return bytes;
}

const unsigned char* unsigned_bytes(std::string_view text) {
  return reinterpret_cast<const unsigned char*>(text.data());
}

}  // namespace

SigningKey SigningKey::make() {
  start_random_numbers();
  SigningKey key;
  crypto_sign_keypair(key.public_key_.data(), key.secret_.data());
  return key;
}

SigningKey SigningKey::of_seed(std::string_view digits) {
  auto seed = bytes_of(digits, crypto_sign_SEEDBYTES);
  if (seed.empty()) {
    throw failure::InputError("this is no key; expected 64 digits of 0 to 9 and a to f");
  }
  SigningKey key;
  crypto_sign_seed_keypair(key.public_key_.data(), key.secret_.data(), seed.data());
  sodium_memzero(seed.data(), seed.size());
  return key;
}

SigningKey::~SigningKey() { sodium_memzero(secret_.data(), secret_.size()); }

std::string SigningKey::seed() const {
  return digits_of(std::span(secret_).first(crypto_sign_SEEDBYTES));
}

std::string SigningKey::public_key() const { return digits_of(public_key_); }

std::string SigningKey::sign(std::string_view bytes) const {
  std::array<unsigned char, crypto_sign_BYTES> signature{};
  crypto_sign_detached(signature.data(), nullptr, unsigned_bytes(bytes), bytes.size(),
                       secret_.data());
  return digits_of(signature);
}

bool signed_by(std::string_view public_key, std::string_view bytes, std::string_view signature) {
  const auto key = bytes_of(public_key, crypto_sign_PUBLICKEYBYTES);
  const auto given = bytes_of(signature, crypto_sign_BYTES);
  return !key.empty() && !given.empty() &&
         crypto_sign_verify_detached(given.data(), unsigned_bytes(bytes), bytes.size(),
                                     key.data()) == 0;
}

}  // namespace logbook
