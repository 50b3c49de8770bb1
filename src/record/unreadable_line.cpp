#include "record/unreadable_line.h"

#include <fmt/format.h>

namespace record {

std::string how_to_go_on(const UnreadableLine& line) {
  if (line.kind == "start") return "the first line cannot be struck, so go back to a copy";
  if (line.kind == "strike") return "a strike cannot be struck, so go back to a copy";
  return fmt::format(
      "\"boltwitness strike {} --why TEXT\" takes it out of what counts, then enter it again; or "
      "go back to a copy",
      line.line);
}

}  // namespace record
