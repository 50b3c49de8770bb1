#include "paper/from_to.h"

#include <fmt/format.h>

namespace paper {

std::string from_to(record::Moment first, record::Moment last) {
  auto from = record::write_local(first);
  const auto to = record::write_local(last);
  if (from == to) return from;
  const auto day = from.find(' ') + 1;
  const bool same_day = from.compare(0, day, to, 0, day) == 0;
  return fmt::format("{} to {}", from, same_day ? to.substr(day) : to);
}

}  // namespace paper
