#include "plan/cross_pattern.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <numeric>

#include "plan/spread.h"

namespace plan {
namespace {

constexpr int kMostUngrouped = 32;
constexpr int kMostGroupsOfTable = 12;
constexpr int kMostInGroup = 4;

int divided_upwards(int value, int divisor) { return (value + divisor - 1) / divisor; }

// The spread order of a ring of `size` places, counted from 1.
std::vector<int> ring_order(int size) {
  const auto places = static_cast<std::size_t>(size);
  const auto steps_between = [places](std::size_t a, std::size_t b) {
    const std::size_t one_way = a > b ? a - b : b - a;
    return static_cast<double>(std::min(one_way, places - one_way));
  };
  std::vector<std::size_t> free(places);
  std::iota(free.begin(), free.end(), std::size_t{0});
  std::vector<double> nearest(places, std::numeric_limits<double>::max());
  std::vector<std::size_t> taken;
  while (const auto next = most_spread(free, nearest, taken, 0.0, steps_between)) {
    taken.push_back(*next);
    std::erase(free, *next);
    for (const std::size_t place : free) {
      nearest[place] = std::min(nearest[place], steps_between(place, *next));
    }
  }
  std::vector<int> order;
  order.reserve(taken.size());
  for (const std::size_t place : taken) order.push_back(static_cast<int>(place) + 1);
  return order;
}

std::vector<int> ungrouped_order(int count) {
  const int parts = count % 4 == 0 ? 4 : count % 2 == 0 ? 2 : 1;
  const int part = count / parts;
  std::vector<int> order;
  for (const int b : ring_order(part)) {
    order.push_back(b);
    if (parts == 4) order.push_back(b + 2 * part);
    if (parts >= 2) order.push_back(b + part);
    if (parts == 4) order.push_back(b + 3 * part);
  }
  return order;
}

// The published table's order of up to twelve groups.
std::vector<int> table_order_of_groups(int groups) {
  const int quarter = divided_upwards(groups, 4);
  const int half = divided_upwards(groups, 2);
  std::vector<int> order;
  for (int b = 1; b <= quarter; ++b) {
    for (const int group : {b, b + half, b + quarter, b + half + quarter}) {
      const bool is_new = std::ranges::find(order, group) == order.end();
      if (group <= groups && is_new) order.push_back(group);
    }
  }
  return order;
}

}  // namespace

bool is_published_count(int count) {
  const bool is_wheel_star = count == 5 || count == 6 || count == 10;
  return is_wheel_star || (count >= 4 && count <= 48 && count % 4 == 0);
}

int group_size(int count) {
  if (count <= kMostUngrouped) return 1;
  return std::min(kMostInGroup, divided_upwards(count, kMostGroupsOfTable));
}

std::vector<int> cross_pattern(int count) {
  assert(count >= 1);
  if (count <= kMostUngrouped) return ungrouped_order(count);
  const int size = group_size(count);
  const int groups = divided_upwards(count, size);
  std::vector<int> order;
  for (const int group :
       groups <= kMostGroupsOfTable ? table_order_of_groups(groups) : ungrouped_order(groups)) {
    const int first = (group - 1) * size + 1;
    for (int i = first; i < first + size && i <= count; ++i) order.push_back(i);
  }
  return order;
}

}  // namespace plan
