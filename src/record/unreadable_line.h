#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace record {

// A line whose rows hold what no program of ours wrote, or an earlier one wrote and could not read
// again. It counts nowhere; its number is known, so that it can be struck.
struct UnreadableLine {
  std::int64_t line = 0;
  std::string id;
  std::string kind;  // as the file names it
  std::string why;   // "tolerance_percent: 0; expected above 0 and below 100"
  bool struck = false;
  bool out_of_place = false;  // it stands where no line can, so that nothing can strike it
};

// Puts them by rising number, each once: one whose rows stand in several tables is met in each.
// That one is out of place is kept.
void each_once(std::vector<UnreadableLine>& lines);

// Neither the first line nor a strike can, nor what is out of place.
[[nodiscard]] bool can_be_struck(const UnreadableLine& line);

// Whether striking it helps, or more is wrong with the logbook than strikes mend.
enum class Strikes { Mend, AreNotEnough };

// What is typed to have it counted no longer, or why there is nothing to type.
[[nodiscard]] std::string how_to_go_on(const UnreadableLine& line, Strikes strikes);

}  // namespace record
