#include "cli/correction.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/errors.h"
#include "cli/label.h"

namespace cli {

void declare_correction(CLI::App& command, CorrectionOptions& options) {
  auto* replace = command.add_option("--replace", options.replaced_line,
                                     "Strike this earlier line, which was wrong, and enter this in "
                                     "its place");
  replace->option_text("LINE");
  auto* why = command.add_option("--why", options.why, "What was wrong with it");
  why->option_text("TEXT");
  replace->needs(why);
  why->needs(replace);
}

record::Stamp strike_line(const logbook::Logbook& logbook, logbook::Recording& recording,
                          std::int64_t line, const std::string& why) {
  const auto target = logbook.line(line);
  if (!target) throw Refusal(fmt::format("there is no line {} in this logbook", line));
  if (target->struck) throw Refusal(fmt::format("line {} is struck already", line));
  if (target->kind == "start") {
    throw Refusal("the first line names the machine and cannot be struck; start another logbook");
  }
  if (target->kind == "strike") {
    throw Refusal(fmt::format(
        "line {} is itself a strike; enter what it struck again instead of striking it", line));
  }
  return recording.append(record::Strike{target->id, read_label(why, "--why")});
}

void strike_replaced(const logbook::Logbook& logbook, logbook::Recording& recording,
                     const CorrectionOptions& options,
                     std::initializer_list<std::string_view> kinds) {
  if (options.replaced_line == 0) return;
  const auto target = logbook.line(options.replaced_line);
  if (target && std::ranges::find(kinds, target->kind) == kinds.end()) {
    throw Refusal(fmt::format(
        "line {} is a {} and cannot be replaced by this; \"boltwitness history\" shows the numbers",
        options.replaced_line, target->kind));
  }
  strike_line(logbook, recording, options.replaced_line, options.why);
}

}  // namespace cli
