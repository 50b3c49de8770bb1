#include "record/deviation_id.h"

#include "quantity/ascii.h"

namespace record {

std::string folded_deviation_id(std::string_view id) {
  std::string folded;
  for (const char c : id) {
    if (c == '0' && folded.ends_with('/')) continue;
    folded += quantity::lower(c);
  }
  return folded;
}

bool same_deviation_id(std::string_view a, std::string_view b) {
  return folded_deviation_id(a) == folded_deviation_id(b);
}

}  // namespace record
