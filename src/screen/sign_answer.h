#pragma once

#include <cstdint>
#include <string>

#include "words/text.h"

namespace screen {

struct SignatureMade {
  std::int64_t line = 0;
  std::string hash;
  std::string by;
  std::string fingerprint;  // SHA-256 of the public key
};

[[nodiscard]] std::string signature_text(const SignatureMade& made, const words::Page& page);
[[nodiscard]] std::string signature_json(const SignatureMade& made);

}  // namespace screen
