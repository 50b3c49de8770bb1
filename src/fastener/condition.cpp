#include "fastener/condition.h"

#include <string>

#include "quantity/ascii.h"

namespace fastener {
namespace {

std::string letters_of(std::string_view text) {
  std::string letters;
  for (const char c : text) {
    if (c == ' ' || c == '-' || c == '_') continue;
    letters += quantity::lower(c);
  }
  return letters;
}

}  // namespace

std::string_view name_of(Condition condition) {
  switch (condition) {
    case Condition::Dry:
      return "dry";
    case Condition::Oiled:
      return "oiled";
    case Condition::Threadlocker:
      return "threadlocker";
    case Condition::AntiSeize:
      return "anti-seize";
    case Condition::AsReceived:
      break;
  }
  return "as-received";
}

std::optional<Condition> read_condition(std::string_view text) {
  constexpr std::size_t kLongestText = 60;
  if (text.size() > kLongestText) return std::nullopt;
  const auto letters = letters_of(text);
  for (const auto condition : kConditions) {
    if (letters == letters_of(name_of(condition))) return condition;
  }
  return std::nullopt;
}

}  // namespace fastener
