#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "record/entry.h"

namespace progress {

// What was done before by the lines of a logbook, to be told of whoever does it again.
class DoneAlready {
 public:
  // The stamp has to outlive this.
  void add(const record::Stamp& line, int position);

  // "J06/01,02 already, by RM (line 9)", for each of the lines, by rising number.
  [[nodiscard]] std::vector<std::string> in_words(std::string_view joint) const;

 private:
  std::map<std::int64_t, std::pair<const record::Stamp*, std::vector<int>>> by_line_;
};

}  // namespace progress
