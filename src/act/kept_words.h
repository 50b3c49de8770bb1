#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "act/correction.h"

namespace act {

// What a line that takes the place of an earlier one keeps of it: everything that is not said anew,
// unless --without names it. Each option of the command is asked for once, by the name that it has
// there without its dashes ("damaged-thread"); whatever --without names besides is a mistake.
class KeptWords {
 public:
  explicit KeptWords(const Correction& correction);

  // Whether what the line before said here is kept: it is not said anew, and not to be left out.
  // UsageError where it is both.
  [[nodiscard]] bool keeps(std::string_view option, bool is_said);

  // Puts what the line before said where it is kept.
  void take(std::string_view option, std::string& said, std::string was);
  void take(std::string_view option, bool& said, bool was);
  void take(std::string_view option, std::vector<std::string>& said, std::vector<std::string> was);

  // The same for what a line cannot be without.
  static void fill(std::string& said, std::string was);

  // UsageError where --without names what was not asked for: a line of this kind has no such thing.
  void check() const;

 private:
  std::vector<std::string> without_;
  std::vector<std::string> options_;  // asked for so far
};

}  // namespace act
