#include "act/amendment.h"

#include <fmt/format.h>

#include <algorithm>

#include "words/line_text.h"

namespace act {
namespace {

std::optional<record::HistoryLine> replaced_line(const logbook::Logbook& logbook,
                                                 const Correction& correction) {
  if (correction.replaced_line.empty()) return std::nullopt;
  const auto number = read_line_number(correction.replaced_line);
  logbook::Logbook::Unreadable unreadable;  // of one of these there is nothing to keep
  for (auto& line : logbook.history(unreadable)) {
    if (line.stamp.line == number) return std::move(line);
  }
  return std::nullopt;
}

logbook::Writer writer_in_place_of(const std::optional<record::HistoryLine>& replaced,
                                   logbook::Writer writer) {
  const bool is_time_stated = writer.done_at != writer.now;
  if (replaced && !is_time_stated) writer.done_at = replaced->stamp.done_at;
  return writer;
}

}  // namespace

Amendment::Amendment(logbook::Logbook& logbook, const logbook::Writer& stated,
                     const Correction& correction)
    : logbook_(logbook),
      correction_(correction),
      replaced_(replaced_line(logbook, correction)),
      writer_(writer_in_place_of(replaced_, stated)),
      recording_(logbook, writer_) {}

void Amendment::strike_replaced(std::initializer_list<std::string_view> kinds) {
  if (correction_.replaced_line.empty()) return;
  const auto number = read_line_number(correction_.replaced_line);
  const auto target = logbook_.line(number);
  if (target && std::ranges::find(kinds, target->kind) == kinds.end()) {
    refuse_other_kind(number, target->kind);
  }
  // The line is struck today, whatever time its successor is given.
  recording_.append_now(strike_of(logbook_, number, correction_.why));
}

void Amendment::check_same_kind(std::string_view kind) const {
  if (!replaced_) return;
  const auto is = std::visit([]<class Kind>(const Kind&) { return record::Kinds::word_of<Kind>(); },
                             replaced_->content);
  if (is != kind) refuse_other_kind(replaced_->stamp.line, is);
}

record::Stamp Amendment::append(const record::Content& content) {
  auto stamp = recording_.append(content);
  says_the_same_ =
      says_the_same_ ||
      (replaced_ && stamp.done_at == replaced_->stamp.done_at && stamp.by == replaced_->stamp.by &&
       words::line_text(content) == words::line_text(replaced_->content));
  return stamp;
}

void Amendment::tell_replaced(Done& done) const {
  if (!replaced_) return;
  if (says_the_same_) {
    done.remarks.push_back(
        fmt::format("it says what line {} said: give what is to be otherwise besides --replace",
                    replaced_->stamp.line));
  }
  done.remarks.push_back(fmt::format("line {}, now struck, said: {}", replaced_->stamp.line,
                                     words::line_text(replaced_->content)));
}

}  // namespace act
