#include "screen/sign_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "words/short_hash.h"

namespace screen {

std::string signature_text(const SignatureMade& made, const words::Page& page) {
  return words::wrapped(fmt::format("{} signed the log up to line {}, hash {}", made.by, made.line,
                                    words::short_hash(made.hash)),
                        page.width, "", "  ") +
         fmt::format("  key {}\n", words::short_hash(made.fingerprint));
}

std::string signature_json(const SignatureMade& made) {
  return json_text({{"line", made.line},
                    {"hash", made.hash},
                    {"by", made.by},
                    {"key_fingerprint", made.fingerprint}});
}

}  // namespace screen
