#pragma once

#include <string>
#include <vector>

#include "record/verification.h"
#include "words/text.h"

namespace screen {

struct SignatureMade {
  std::vector<record::ChainCheck::Hashed> ends;  // at least one, rising
  std::string by;
  std::string fingerprint;  // SHA-256 of the public key
};

[[nodiscard]] std::string signature_text(const SignatureMade& made, const words::Page& page);
[[nodiscard]] std::string signature_json(const SignatureMade& made);

}  // namespace screen
