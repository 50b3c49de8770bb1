#include "words/renewal_orders.h"

#include <fmt/format.h>

#include <algorithm>

#include "record/address.h"

namespace words {
namespace {

using plan::Renewing;

// Whatever the words in which a length was entered.
bool same_fastener(const record::Joint& a, const record::Joint& b) {
  const bool same_length = a.length && b.length ? quantity::is_same(*a.length, *b.length)
                                                : a.length.has_value() == b.length.has_value();
  return a.size == b.size && same_length && a.grade == b.grade;
}

void add(std::vector<RenewalOrder>& orders, const Renewing& renewing) {
  const auto& joint = *renewing.joint->joint;
  auto known = std::ranges::find_if(
      orders, [&](const RenewalOrder& order) { return same_fastener(*order.joint, joint); });
  if (known == orders.end()) known = orders.insert(orders.end(), {&joint, {}});
  known->positions.push_back(&renewing);
}

std::string reasons_text(const Renewing& renewing) {
  std::string text;
  for (const auto reason : renewing.reasons) {
    text += (text.empty() ? "" : ", ") + std::string(plan::in_words(reason));
  }
  return text;
}

}  // namespace

RenewalOrders renewal_orders(const std::vector<Renewing>& list) {
  RenewalOrders orders;
  for (const auto& renewing : list) {
    if (renewing.has_arrived) {
      add(orders.arrived, renewing);
    } else {
      add(renewing.is_certain() ? orders.to_buy : orders.look_first, renewing);
    }
  }
  return orders;
}

std::vector<std::string> what_for(const RenewalOrder& order) {
  std::vector<std::string> lines;
  for (auto first = order.positions.begin(); first != order.positions.end();) {
    const auto reasons = reasons_text(**first);
    std::vector<int> positions;
    auto next = first;
    while (next != order.positions.end() && (*next)->joint == (*first)->joint &&
           reasons_text(**next) == reasons &&
           ((*next)->old_went_back == nullptr) == ((*first)->old_went_back == nullptr)) {
      positions.push_back((*next)->position);
      ++next;
    }
    const auto address = record::write_address((*first)->joint->joint->code, positions);
    lines.push_back(fmt::format("{}: {}{}", address, reasons,
                                (*first)->old_went_back == nullptr
                                    ? ""
                                    : fmt::format("; the old one is in: out {}, then fit the new "
                                                  "one and tighten it",
                                                  address)));
    first = next;
  }
  return lines;
}

}  // namespace words
