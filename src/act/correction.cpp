#include "act/correction.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/typed_text.h"
#include "words/line_text.h"

namespace act {

void refuse_other_kind(std::int64_t line, std::string_view kind) {
  throw failure::Refusal(fmt::format(
      "line {} is a {} and cannot be replaced by this; \"boltwitness history\" shows the numbers",
      line, kind));
}

record::Strike strike_of(const logbook::Logbook& logbook, std::int64_t line,
                         const std::string& why) {
  const auto target = logbook.line(line);
  if (!target) throw failure::Refusal(fmt::format("there is no line {} in this logbook", line));
  if (target->struck) throw failure::Refusal(fmt::format("line {} is struck already", line));
  if (target->kind == "start") {
    throw failure::Refusal(
        "the first line names the machine and cannot be struck; start another logbook");
  }
  if (target->kind == "strike") {
    throw failure::Refusal(fmt::format(
        "line {} is itself a strike; enter what it struck again instead of striking it", line));
  }
  return record::Strike{target->id, record::read_text(why, "--why")};
}

std::int64_t read_line_number(std::string_view text) {
  const auto digits = quantity::trimmed(text);
  std::int64_t number = 0;
  const auto [stop, problem] =
      std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (problem != std::errc{} || stop != digits.data() + digits.size() || number < 1) {
    throw failure::InputError(fmt::format(
        "{} is no line number; expected a whole number such as 14 (\"boltwitness history\" shows "
        "them)",
        quantity::quoted(text)));
  }
  return number;
}

Done strike(logbook::Logbook& logbook, const logbook::Writer& writer, std::int64_t line,
            const std::string& why) {
  return strike(logbook, writer, std::vector{line}, why);
}

Done strike(logbook::Logbook& logbook, const logbook::Writer& writer,
            const std::vector<std::int64_t>& lines, const std::string& why) {
  logbook::Recording recording(logbook, writer);
  logbook::Logbook::Unreadable unreadable;  // to be struck is what such a line is left for
  const auto history = logbook.history(unreadable);
  std::erase_if(unreadable, [](const auto& each) { return each.struck; });
  if (std::ranges::none_of(unreadable, [&](const auto& each) {
        return std::ranges::find(lines, each.line) != lines.end();
      })) {
    logbook.refuse_if_any(unreadable);
  }
  Done done;
  for (const auto line : lines) {
    if (std::ranges::count(lines, line) > 1) {
      throw failure::Refusal(fmt::format("line {} is named twice; name each once", line));
    }
    auto stamp = recording.append(strike_of(logbook, line, why));
    const auto said =
        std::ranges::find_if(history, [&](const auto& each) { return each.stamp.line == line; });
    done.lines.push_back(
        {std::move(stamp), said == history.end()
                               ? fmt::format("line {} struck", line)
                               : fmt::format("line {} struck, which said: {}", line,
                                             words::line_text(said->content))});
  }
  recording.commit();
  return done;
}

}  // namespace act
