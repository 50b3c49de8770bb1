#pragma once

#include <cstdint>
#include <string>
#include <tuple>

#include "record/moment.h"

namespace record {

// What every line of the logbook carries beside its content. `id` is unique in the world and rises
// with time (a version 7 UUID, RFC 9562 section 5.7); `line` is its number in this file only, so
// nothing is ever looked up by it except what a person typed.
struct Stamp {
  std::string id;
  std::int64_t line = 0;
  std::string by;      // who did it
  Moment done_at;      // when it was done
  Moment entered_at;   // when it was written down
  std::string device;  // the machine that wrote it: an id of its own, no name
};

// True where `a` was done after `b`; of what was done at the same time, where it was entered after.
[[nodiscard]] inline bool is_later(const Stamp& a, const Stamp& b) {
  return std::tie(a.done_at, a.id) > std::tie(b.done_at, b.id);
}

// True where `a` was done before `b`; of what was done at the same time, where it was entered
// before.
[[nodiscard]] inline bool is_earlier(const Stamp& a, const Stamp& b) { return is_later(b, a); }

// A line of the logbook.
template <class Content>
struct Entry {
  Stamp stamp;
  Content content;
};

}  // namespace record
