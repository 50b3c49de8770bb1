#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "act/done.h"
#include "logbook/recording.h"
#include "record/history_line.h"

namespace act {

// What is recorded may take the place of an earlier line that was wrong.
struct Correction {
  std::string replaced_line;  // empty where nothing is replaced
  std::string why;
  std::vector<std::string> without = {};  // options of which nothing is kept (kept_words.h)
};

// Strikes the line that is replaced, in the same recording as its successor. Nothing where none is.
// Refusal as strike, and where the line is of none of these kinds: then its number was
// mistyped.
void strike_replaced(const logbook::Logbook& logbook, logbook::Recording& recording,
                     const Correction& correction, std::initializer_list<std::string_view> kinds);

// Refusal where the line that is replaced is of another kind than what takes its place.
void check_same_kind(const record::HistoryLine& replaced, std::string_view kind);

// The line that is replaced; nothing where none is, or where there is no such line.
[[nodiscard]] std::optional<record::HistoryLine> replaced_line(const logbook::Logbook& logbook,
                                                               const Correction& correction);

// What the replaced line held, where it is of this kind.
template <class Content>
[[nodiscard]] const Content* content_in(const std::optional<record::HistoryLine>& replaced) {
  return replaced ? std::get_if<Content>(&replaced->content) : nullptr;
}

// Who writes what takes its place: where no time was stated, at the time of the line that it
// replaces, since it corrects what was written and not when it was done.
[[nodiscard]] logbook::Writer writer_in_place_of(const std::optional<record::HistoryLine>& replaced,
                                                 logbook::Writer writer);

// Adds to the remarks what the replaced line said, to be read beside what stands there now.
void tell_replaced(const std::optional<record::HistoryLine>& replaced, Done& done);

// Strikes the line of this number in a recording of its own. Refusal where there is no such line,
// it is struck already, or it is a strike or the first line; UsageError without a reason.
Done strike(logbook::Logbook& logbook, const logbook::Writer& writer, std::int64_t line,
            const std::string& why);

// The same for several, all or none; each answer tells what the line said. Refusal where one is
// named twice.
Done strike(logbook::Logbook& logbook, const logbook::Writer& writer,
            const std::vector<std::int64_t>& lines, const std::string& why);

// The number of a line as typed. InputError where it is no whole number above zero.
[[nodiscard]] std::int64_t read_line_number(std::string_view text);

}  // namespace act
