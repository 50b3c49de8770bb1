#include "screen/sign_answer.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "screen/json_text.h"
#include "words/short_hash.h"

namespace screen {

std::string signature_text(const SignatureMade& made, const words::Page& page) {
  std::string up_to;
  for (const auto& end : made.ends) {
    up_to += fmt::format("{}line {}, hash {}", up_to.empty() ? "" : " and ", end.line,
                         words::short_hash(end.hash));
  }
  return words::wrapped(fmt::format("{} signed the log up to {}", made.by, up_to), page.width, "",
                        "  ") +
         fmt::format("  key {}\n", words::short_hash(made.fingerprint));
}

std::string signature_json(const SignatureMade& made) {
  auto ends = nlohmann::ordered_json::array();
  for (const auto& end : made.ends) ends.push_back({{"line", end.line}, {"hash", end.hash}});
  return json_text(kSignatureFormat, {{"line", made.ends.back().line},
                                      {"hash", made.ends.back().hash},
                                      {"ends", std::move(ends)},
                                      {"by", made.by},
                                      {"key_fingerprint", made.fingerprint}});
}

}  // namespace screen
