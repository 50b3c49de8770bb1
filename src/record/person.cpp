#include "record/person.h"

#include <string>

#include "quantity/ascii.h"

namespace record {
namespace {

std::string letters_of(std::string_view name) {
  std::string letters;
  for (const char c : name) {
    if (c != ' ' && c != '.') letters += quantity::lower(c);
  }
  return letters;
}

}  // namespace

bool is_same_person(std::string_view a, std::string_view b) {
  return letters_of(a) == letters_of(b);
}

}  // namespace record
