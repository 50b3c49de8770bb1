#include "words/strike_in_words.h"

#include <fmt/format.h>

namespace words {

namespace {

std::string in_words(const record::Stamp& strike, const std::string& why) {
  return fmt::format("by {} in line {}, {}: {}", strike.by, strike.line,
                     record::write_local(strike.done_at), why);
}

}  // namespace

std::string struck_mark(const record::HistoryLine& line) {
  if (!line.struck_by) return {};
  return line.is_altered ? "STRUCK, AND NOT WHAT WAS WRITTEN: " : "STRUCK ";
}

std::string strike_in_words(const record::HistoryLine& line) {
  auto text = in_words(*line.struck_by, line.struck_why);
  for (const auto& again : line.struck_again) text += "; and " + in_words(again.by, again.why);
  return text;
}

}  // namespace words
