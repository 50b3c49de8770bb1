#pragma once

#include <stdexcept>
#include <string_view>
#include <vector>

namespace fuzz {

// A reader of what comes from outside, tried with any bytes. It may refuse them, as a
// failure::Failure; what it takes has to keep the promises of its header (Broken). Anything else
// that is thrown, and whatever the sanitizers see, is a fault too.
struct Target {
  std::string_view name;  // also that of its folder in tests/fuzz/corpus
  void (*run)(std::string_view bytes);
};

[[nodiscard]] const std::vector<Target>& targets();

// A promise that was not kept.
class Broken : public std::logic_error {
  using std::logic_error::logic_error;
};

inline void promise(bool kept, const char* what) {
  if (!kept) throw Broken(what);
}

// The readers, in the files named after what they read.
void torque(std::string_view bytes);
void length(std::string_view bytes);
void specification(std::string_view bytes);
void readings(std::string_view bytes);
void shouted_line(std::string_view bytes);
void address(std::string_view bytes);
void layout(std::string_view bytes);
void csv(std::string_view bytes);
void json(std::string_view bytes);
void picture(std::string_view bytes);
void deed(std::string_view bytes);
void logbook_file(std::string_view bytes);

}  // namespace fuzz
