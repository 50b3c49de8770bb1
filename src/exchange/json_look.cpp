#include "exchange/json_look.h"

#include <fmt/format.h>

#include "failure/failure.h"

namespace exchange {
namespace {

constexpr std::size_t kMostBetweenQuotes = std::size_t{16} << 20U;

}  // namespace

void refuse_deep_json() {
  throw failure::InputError(fmt::format(
      "the JSON is nested more than {} deep; nothing that is read here is; take a whole copy",
      kDeepestJson));
}

void JsonLook::look(std::string_view piece) {
  for (const char c : piece) {
    ++since_quote_;
    if (is_escaped_) {
      is_escaped_ = false;
    } else if (c == '"') {
      in_text_ = !in_text_;
      since_quote_ = 0;
    } else if (in_text_) {
      is_escaped_ = c == '\\';
    } else if (c == '{' || c == '[') {
      if (++depth_ > kDeepestJson) refuse_deep_json();
    } else if ((c == '}' || c == ']') && depth_ > 0) {
      --depth_;
    }
  }
  if (since_quote_ <= kMostBetweenQuotes) return;
  throw failure::InputError(
      fmt::format("{} MiB of JSON without a quotation mark, as no copy of a logbook has; take the "
                  "file that \"boltwitness export --to FILE\" wrote",
                  kMostBetweenQuotes >> 20U));
}

}  // namespace exchange
