#include "record/stated_order.h"

#include "quantity/ascii.h"
#include "record/makers_order.h"

namespace record {

StatedOrder read_stated_order(std::string_view text, int count) {
  if (text.empty() || !quantity::is_letter(text.front())) return {read_makers_order(text, count)};
  const auto& pattern = published_pattern(text, count);
  return {pattern.order, &pattern};
}

}  // namespace record
