#include "record/word.h"

#include "quantity/ascii.h"

namespace record {
namespace {

std::string letters_alone(std::string_view text) {
  std::string letters;
  for (const char c : text) {
    if (c != '-' && c != ' ') letters += quantity::lower(c);
  }
  return letters;
}

}  // namespace

bool is_same_word(std::string_view a, std::string_view b) {
  return letters_alone(a) == letters_alone(b);
}

}  // namespace record
