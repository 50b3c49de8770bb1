#pragma once

#include <fmt/format.h>

#include <optional>
#include <string>

#include "dialogue/mistake.h"
#include "quantity/ascii.h"
#include "terminal/session.h"

namespace dialogue {

// What a question got that is answered with a line.
template <class Value>
struct LineAnswer {
  std::optional<Value> value;  // nothing where it was left with Enter alone, or the person stops
  bool stops = false;          // the input ended, or Ctrl-C or Ctrl-D was pressed
};

// Asks until `read` takes what was typed, and gives what it makes of it. What it refuses with a
// Failure that the person can put right is told, and asked again at once. An answer that is left
// says that nothing was recorded; where there is one for `enter`, Enter alone gives that.
template <class Read>
auto ask_line(const terminal::Session& session, const std::string& question, Read&& read,
              const std::string& enter = {}) -> LineAnswer<decltype(read(std::string()))> {
  while (true) {
    const auto typed = session.answer(question + ": ", "");
    auto text = typed ? std::string(quantity::trimmed(*typed)) : std::string();
    if (typed && text.empty()) text = enter;
    if (text.empty()) {
      session.remark("nothing was recorded");
      return {std::nullopt, !typed};
    }
    try {
      return {read(text), false};
    } catch (const failure::Failure& error) {
      if (!is_for_the_person(error)) throw;
      session.remark(fmt::format("{}; Enter alone {}", error.what(),
                                 enter.empty() ? "leaves it" : "takes " + enter));
    }
  }
}

}  // namespace dialogue
