#pragma once

#include <string>
#include <vector>

#include "plan/renewal_list.h"

namespace words {

// Positions that take the same fastener: size, length and grade.
struct RenewalOrder {
  const record::Joint* joint = nullptr;  // the first of those that take it
  std::vector<const plan::Renewing*> positions;
};

// The renewal list by fasteners, in the order in which they come up.
struct RenewalOrders {
  std::vector<RenewalOrder> to_buy;
  std::vector<RenewalOrder> arrived;
  std::vector<RenewalOrder> look_first;  // seized: renewed where the thread is pulled
};

// It points into `list`.
[[nodiscard]] RenewalOrders renewal_orders(const std::vector<plan::Renewing>& list);

// "J10/1-8: one-time", one line for each joint and reason; where the old one went back before the
// new one came also how that gets in.
[[nodiscard]] std::vector<std::string> what_for(const RenewalOrder& order);

}  // namespace words
