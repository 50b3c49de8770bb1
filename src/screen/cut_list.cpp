#include "screen/cut_list.h"

#include <fmt/format.h>

namespace screen {

std::string and_more(std::size_t left_out, std::string_view command, const words::Page& page,
                     std::string_view indent) {
  if (left_out == 0) return {};
  return words::wrapped(fmt::format("and {} more: boltwitness {}", left_out, command), page.width,
                        indent, std::string(indent) + "  ");
}

std::size_t shown_of(std::size_t all, std::size_t most) { return all <= most + 1 ? all : most; }

}  // namespace screen
