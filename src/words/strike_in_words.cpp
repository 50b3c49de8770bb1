#include "words/strike_in_words.h"

#include <fmt/format.h>

namespace words {

std::string strike_in_words(const record::HistoryLine& line) {
  const auto& strike = *line.struck_by;
  return fmt::format("by {} in line {}, {}: {}", strike.by, strike.line,
                     record::write_local(strike.done_at), line.struck_why);
}

}  // namespace words
