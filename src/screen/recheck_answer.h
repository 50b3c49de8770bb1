#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "progress/due_rechecks.h"
#include "progress/turned_stripe.h"
#include "screen/written_lines.h"
#include "words/text.h"
#include "words/written_line.h"

namespace screen {

// How many looks are due, overdue first; then one row each. The list is cut; `whole` is the command
// that cuts none, empty where it was given.
[[nodiscard]] std::string due_rechecks_text(const std::vector<progress::DueRecheck>& list,
                                            record::Moment now, std::string_view whole,
                                            const words::Page& page);
// The first line of it alone.
[[nodiscard]] std::string due_in_short(const std::vector<progress::DueRecheck>& list,
                                       const words::Page& page);

// {"overdue":true,"due":[{"joint","positions":[],"overdue","turned_deg","after","rule","since",
// "since_what","due_at","due_counter","counter"}]}; what does not apply is null.
[[nodiscard]] std::string due_rechecks_json(const std::vector<progress::DueRecheck>& list);

// What a turned stripe says: the preload lost and what was there, with every assumption, and what
// to do. `turned` is nothing where the length of the fasteners is not known.
// Its sentences; the last is what to do.
[[nodiscard]] std::vector<std::string> turned_lines(
    const std::optional<progress::TurnedStripe>& turned, const record::Recheck& recheck,
    quantity::TorqueUnit unit);
[[nodiscard]] std::string turned_text(const std::optional<progress::TurnedStripe>& turned,
                                      const record::Recheck& recheck, quantity::TorqueUnit unit,
                                      const words::Page& page);

// {"lines":[...],"preload_lost_n":{"low","high"},"preload_had_n":{"low","high"},"assumed":[],"do"};
// null where it is not known.
[[nodiscard]] std::string turned_json(const std::optional<progress::TurnedStripe>& turned,
                                      const record::Recheck& recheck, quantity::TorqueUnit unit,
                                      const words::WrittenLine& line);

}  // namespace screen
