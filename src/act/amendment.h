#pragma once

#include <initializer_list>
#include <optional>
#include <string_view>

#include "act/correction.h"
#include "act/done.h"
#include "logbook/recording.h"
#include "record/history_line.h"

namespace act {

// The recording of a deed whose line may take the place of an earlier one. The logbook is held
// against other writers from its beginning, so that what a deed looks up still holds when its line
// is written; without keep() every line is undone.
class Amendment {
 public:
  // Looks up the line that is replaced, if any.
  Amendment(logbook::Logbook& logbook, const logbook::Writer& stated, const Correction& correction);

  // Strikes the line that is replaced, before anything else is appended. Nothing where none is.
  // Refusal as strike, and where the line is of none of these kinds: then its number was mistyped.
  void strike_replaced(std::initializer_list<std::string_view> kinds);

  // Refusal where the line that is replaced is of another kind than what takes its place.
  void check_same_kind(std::string_view kind) const;

  // Nothing where no line is replaced, or where there is none of that number.
  [[nodiscard]] const std::optional<record::HistoryLine>& replaced() const { return replaced_; }

  // What the replaced line held, where it is of this kind.
  template <class Content>
  [[nodiscard]] const Content* before() const {
    return replaced_ ? std::get_if<Content>(&replaced_->content) : nullptr;
  }

  // Who writes, where and when: where no time was stated, at the time of the line that is replaced,
  // since a correction is of what was written and not of when it was done.
  [[nodiscard]] const logbook::Writer& writer() const { return writer_; }

  record::Stamp append(const record::Content& content);

  // As Recording has it.
  void keep_photograph(std::string_view bytes) { recording_.keep_photograph(bytes); }

  // Keeps what was appended. InputError where it could not be read back.
  // What is told of the lines is read before: a read that fails must not say that nothing was
  // written.
  void commit() { recording_.commit(); }

  // Adds to the remarks what the replaced line said, to be read beside what stands there now, and
  // that the two say the same.
  void tell_replaced(Done& done) const;

 private:
  logbook::Logbook& logbook_;
  Correction correction_;
  std::optional<record::HistoryLine> replaced_;
  logbook::Writer writer_;
  logbook::Recording recording_;
  bool says_the_same_ = false;  // what takes the place of the line that is replaced
};

}  // namespace act
