#include "dialogue/one_key.h"

#include <fmt/format.h>

#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace dialogue {

std::string every_key() {
  std::string keys;
  for (char key = '!'; key <= '~'; ++key) keys += quantity::lower(key);
  return keys;
}

char key_of(const std::string& typed) {
  const auto text = quantity::trimmed(typed);
  if (text.empty()) return '\n';
  return text.size() == 1 ? quantity::lower(text.front()) : '\0';
}

void remark_on_key(const terminal::Session& session, const std::string& typed,
                   std::string_view keys) {
  const auto text = quantity::trimmed(typed);
  session.remark(fmt::format("{} is no key here; {} are; nothing was recorded",
                             text.empty() ? "Enter" : quantity::quoted(text), keys));
}

}  // namespace dialogue
