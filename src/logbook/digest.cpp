#include "logbook/digest.h"

#include <sodium.h>

#include <array>

namespace logbook {

std::string digits_of(std::span<const unsigned char> bytes) {
  std::string text(2 * bytes.size() + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), bytes.data(), bytes.size());
  text.pop_back();  // the end of a C string
  return text;
}

std::string sha256(std::string_view bytes) {
  std::array<unsigned char, crypto_hash_sha256_BYTES> digest{};
  crypto_hash_sha256(digest.data(), reinterpret_cast<const unsigned char*>(bytes.data()),
                     bytes.size());
  return digits_of(digest);
}

}  // namespace logbook
