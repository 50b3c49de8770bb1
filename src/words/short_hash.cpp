#include "words/short_hash.h"

#include <fmt/format.h>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"

namespace words {
namespace {

constexpr std::size_t kShort = 16;
constexpr std::size_t kWhole = 64;
constexpr std::size_t kGroup = 4;

}  // namespace

std::string short_hash(std::string_view hash) {
  if (hash.empty()) return "none";
  std::string text;
  for (std::size_t i = 0; i < hash.size() && i < kShort; ++i) {
    if (i > 0 && i % kGroup == 0) text += ' ';
    text += hash[i];
  }
  return text;
}

std::string short_hashes(const std::vector<std::string>& hashes) {
  if (hashes.empty()) return "none";
  std::string text;
  for (const auto& hash : hashes) text += (text.empty() ? "" : " and ") + short_hash(hash);
  return text;
}

std::string read_hash(std::string_view typed) {
  std::string hash;
  for (const char c : typed) {
    if (c != ' ') hash += quantity::lower(c);
  }
  if (hash.size() < kShort || hash.size() > kWhole ||
      !quantity::is_hexadecimal(hash, hash.size())) {
    throw failure::InputError(fmt::format(
        "{} is no hash; expected the sixteen digits of 0 to 9 and a to f that stand at the foot of "
        "a page, such as \"3f2a 91c0 77de 0b12\"",
        quantity::quoted(typed)));
  }
  return hash;
}

std::vector<std::string> read_hashes(std::string_view typed) {
  constexpr std::string_view kBetween = " and ";
  std::vector<std::string> hashes;
  for (;;) {
    const auto at = typed.find(kBetween);
    hashes.push_back(read_hash(typed.substr(0, at)));
    if (at == std::string_view::npos) return hashes;
    typed.remove_prefix(at + kBetween.size());
  }
}

}  // namespace words
