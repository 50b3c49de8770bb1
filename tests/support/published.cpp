#include "support/published.h"

#include <fmt/format.h>

#include <stdexcept>

namespace {

PublishedCount& running_count() {
  static PublishedCount count;
  return count;
}

}  // namespace

Published published_as(const std::string& how_known) {
  if (how_known == "seen") return Published::Seen;
  if (how_known == "memory") return Published::FromMemory;
  throw std::runtime_error("neither seen nor memory: " + how_known);
}

PublishedCount published_count() { return running_count(); }

void count_published(Published known) {
  ++(known == Published::Seen ? running_count().seen : running_count().from_memory);
}

std::string published_line(const PublishedCount& count) {
  if (count.seen + count.from_memory == 0) return {};
  return fmt::format("published values checked: {} (seen {}, from memory {})\n",
                     count.seen + count.from_memory, count.seen, count.from_memory);
}
