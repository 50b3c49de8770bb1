#include "logbook/same_logbook.h"

#include <fmt/format.h>

#include "logbook/logbook_error.h"

namespace logbook {
namespace {

[[noreturn]] void refuse(const Logbook& logbook, const std::string& what) {
  throw LogbookError(
      LogbookError::Kind::Unreachable,
      fmt::format(
          "{} lies at {} now; put the one back that was opened, or begin anew with this one", what,
          logbook.path()));
}

}  // namespace

void SameLogbook::check(const Logbook& logbook) {
  auto first = logbook.first_id();
  if (!first_id_.empty() && first != first_id_) refuse(logbook, "another logbook");
  if (!last_id_.empty() && !logbook.has_line(last_id_)) {
    refuse(logbook, fmt::format("a copy of the logbook without line {}", last_line_));
  }
  first_id_ = std::move(first);
  last_line_ = logbook.last_line();
  last_id_ = logbook.id_of(last_line_);
}

}  // namespace logbook
