#include "progress/done_already.h"

#include <fmt/format.h>

#include "record/address.h"

namespace progress {

void DoneAlready::add(const record::Stamp& line, int position) {
  auto& [stamp, positions] = by_line_[line.line];
  stamp = &line;
  positions.push_back(position);
}

std::vector<std::string> DoneAlready::in_words(std::string_view joint) const {
  std::vector<std::string> says;
  for (const auto& [number, done] : by_line_) {
    says.push_back(fmt::format("{} already, by {} (line {})",
                               record::write_address(joint, done.second), done.first->by, number));
  }
  return says;
}

}  // namespace progress
