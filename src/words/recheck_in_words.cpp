#include "words/recheck_in_words.h"

#include <fmt/format.h>

#include "quantity/angle_text.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace words {
namespace {

using progress::DueRecheck;

std::string since_text(const DueRecheck& due) {
  return fmt::format("{} of {}", due.since_stripe ? "stripe" : "look",
                     record::write_local(due.since->done_at));
}

std::string clock_text(const DueRecheck& due, record::Moment now) {
  const auto span = std::chrono::floor<std::chrono::seconds>(due.is_overdue ? now - *due.due_at
                                                                            : *due.due_at - now);
  const auto away = record::write_rounded(record::SpanOfTime{span});
  return fmt::format("{}, {}", record::write_local(*due.due_at),
                     due.is_overdue ? away + " ago" : "in " + away);
}

std::string amount_text(double amount, record::Counter counter) {
  return fmt::format("{} {}", quantity::write_rounded(amount), record::word_of(counter));
}

std::string counter_text(const DueRecheck& due) {
  if (!due.due_reading) return "no counter reading was noted then; look now, with --counter";
  const auto& at = *due.due_reading;
  const auto text = "at " + record::write_exact(at);
  if (!due.reading) return text + "; say where it stands with --counter";
  const double left = at.amount - due.reading->amount;
  return fmt::format("{}, {}", text,
                     due.is_overdue ? amount_text(-left, at.counter) + " ago"
                                    : amount_text(left, at.counter) + " to go");
}

}  // namespace

std::string due_in_words(const DueRecheck& due, record::Moment now) {
  const auto where = record::write_address(due.joint->code, due.positions);
  if (due.turned) {
    return fmt::format("{}: turned {} at the {}; tighten it again and draw a new stripe", where,
                       quantity::write_exact(*due.turned), since_text(due));
  }
  return fmt::format(
      "{}: {} ({} after the {}{})", where, due.due_at ? clock_text(due, now) : counter_text(due),
      record::length_text(*due.after), since_text(due),
      due.rule == nullptr ? "" : fmt::format("; {}: {}", due.rule->name, due.rule->recheck));
}

}  // namespace words
