#pragma once

#include <cstddef>
#include <string_view>

namespace exchange {

// As deep as a copy of a logbook or anything else that is read here can be nested, with room to
// spare; much deeper, and walking through it would exhaust the stack.
inline constexpr std::size_t kDeepestJson = 32;

// InputError that it is nested deeper.
[[noreturn]] void refuse_deep_json();

// Looks at a JSON text while it comes in, so that one without an end, or one that is none, is not
// held before it is refused.
class JsonLook {
 public:
  // InputError where it is nested deeper than kDeepestJson, and where more follows without a
  // quotation mark than stands between two of them in any copy: the longest is a photograph.
  void look(std::string_view piece);

 private:
  bool in_text_ = false;
  bool is_escaped_ = false;
  std::size_t depth_ = 0;
  std::size_t since_quote_ = 0;  // bytes
};

}  // namespace exchange
