#include "plan/joint_order.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <functional>
#include <numeric>
#include <queue>
#include <string_view>
#include <unordered_map>

#include "failure/failure.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace plan {
namespace {

using Kind = Precedence::Kind;

// Joints are numbered by their place in the default order, so a smaller number is an earlier wish.
std::vector<std::size_t> default_order(const std::vector<JointToClose>& joints) {
  std::vector<std::size_t> order(joints.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    if (joints[a].bench != joints[b].bench) return joints[a].bench;
    const auto& rank_a = joints[a].came_out;
    const auto& rank_b = joints[b].came_out;
    if (!rank_a || !rank_b) return !rank_a && rank_b;
    return *rank_a > *rank_b;
  });
  return order;
}

// A stated precedence seen from one of its two ends.
struct Link {
  std::size_t other;
  const Precedence* stated;
};

struct Graph {
  std::vector<std::vector<Link>> waits_for;
  std::vector<std::vector<Link>> is_awaited_by;
  std::vector<Precedence> unknown;
};

Graph graph_of(const std::vector<std::string_view>& codes,
               const std::vector<Precedence>& precedences) {
  std::unordered_map<std::string, std::size_t> number_of;
  for (std::size_t i = 0; i < codes.size(); ++i) {
    if (!number_of.emplace(record::folded_code(codes[i]), i).second) {
      throw failure::InputError(
          fmt::format("two joints share the code {}; expected a code of its own for each",
                      quantity::quoted(codes[i])));
    }
  }
  Graph graph;
  graph.waits_for.resize(codes.size());
  graph.is_awaited_by.resize(codes.size());
  for (const auto& precedence : precedences) {
    const auto later = number_of.find(record::folded_code(precedence.code));
    const auto earlier = number_of.find(record::folded_code(precedence.first));
    if (later == number_of.end() || earlier == number_of.end()) {
      graph.unknown.push_back(precedence);
      continue;
    }
    graph.waits_for[later->second].push_back({earlier->second, &precedence});
    graph.is_awaited_by[earlier->second].push_back({later->second, &precedence});
  }
  return graph;
}

// Kahn's method with the default order as priority. Shorter than the graph where there is a cycle.
std::vector<std::size_t> topological_order(const Graph& graph) {
  std::vector<std::size_t> open_links;
  std::priority_queue<std::size_t, std::vector<std::size_t>, std::greater<>> ready;
  for (std::size_t i = 0; i < graph.waits_for.size(); ++i) {
    open_links.push_back(graph.waits_for[i].size());
    if (open_links[i] == 0) ready.push(i);
  }
  std::vector<std::size_t> order;
  while (!ready.empty()) {
    const std::size_t next = ready.top();
    ready.pop();
    order.push_back(next);
    for (const auto& link : graph.is_awaited_by[next]) {
      if (--open_links[link.other] == 0) ready.push(link.other);
    }
  }
  return order;
}

// Every joint left out of the topological order waits for another one left out, so a walk along
// such links must come round. Returns the joint of that round which is earliest in the default.
std::size_t joint_on_a_cycle(const Graph& graph, const std::vector<bool>& is_placed) {
  std::vector<std::size_t> path;
  std::vector<bool> is_on_path(is_placed.size(), false);
  auto at = static_cast<std::size_t>(std::ranges::find(is_placed, false) - is_placed.begin());
  while (!is_on_path[at]) {
    is_on_path[at] = true;
    path.push_back(at);
    at = std::ranges::find_if(graph.waits_for[at], [&](const Link& link) {
           return !is_placed[link.other];
         })->other;
  }
  return *std::min_element(std::ranges::find(path, at), path.end());
}

// Breadth first along the waiting, from `start` until a link leads back to it.
JointCycle shortest_cycle_through(std::size_t start, const Graph& graph) {
  std::vector<const Precedence*> came_by(graph.waits_for.size(), nullptr);
  std::vector<std::size_t> came_from(graph.waits_for.size(), start);
  std::queue<std::size_t> frontier({start});
  while (true) {
    const std::size_t at = frontier.front();
    frontier.pop();
    for (const auto& link : graph.waits_for[at]) {
      if (link.other == start) {
        JointCycle cycle{{*link.stated}};
        for (std::size_t back = at; back != start; back = came_from[back]) {
          cycle.links.push_back(*came_by[back]);
        }
        std::ranges::reverse(cycle.links);
        return cycle;
      }
      if (came_by[link.other]) continue;
      came_by[link.other] = link.stated;
      came_from[link.other] = at;
      frontier.push(link.other);
    }
  }
}

std::string joined(const std::vector<std::string_view>& codes) {
  return fmt::format("{}", fmt::join(codes, ", "));
}

// `passed[i]` is the latest default place among all that stand no later than joint i. Where a joint
// it waits for has passed its own default place, that joint held it back. Each is named once, in
// default order.
std::string stated_reasons(std::size_t joint, std::vector<Link> waits_for,
                           const std::vector<std::size_t>& passed) {
  std::vector<std::string_view> held_back_by;
  std::vector<std::string_view> after;
  std::vector<std::string_view> covers;
  std::ranges::sort(waits_for, {}, &Link::other);
  for (const auto& [other, stated] : waits_for) {
    auto& reasons = passed[other] > joint          ? held_back_by
                    : stated->kind == Kind::Covers ? covers
                                                   : after;
    if (reasons.empty() || reasons.back() != stated->first) reasons.push_back(stated->first);
  }
  std::string why;
  if (!held_back_by.empty()) why += "; waits for " + joined(held_back_by);
  if (!after.empty()) why += "; after " + joined(after);
  if (!covers.empty()) why += "; covers " + joined(covers);
  return why;
}

}  // namespace

std::variant<JointOrder, JointCycle> joint_order(const std::vector<JointToClose>& joints,
                                                 const std::vector<Precedence>& precedences) {
  const auto by_default = default_order(joints);
  std::vector<std::string_view> codes;
  codes.reserve(joints.size());
  for (const std::size_t i : by_default) codes.push_back(joints[i].code);
  Graph graph = graph_of(codes, precedences);

  const auto order = topological_order(graph);
  if (order.size() < joints.size()) {
    std::vector<bool> is_placed(joints.size(), false);
    for (const std::size_t joint : order) is_placed[joint] = true;
    return shortest_cycle_through(joint_on_a_cycle(graph, is_placed), graph);
  }

  JointOrder result;
  result.unknown = std::move(graph.unknown);
  std::optional<int> last_out;
  for (const auto& joint : joints) last_out = std::max(last_out, joint.came_out);
  std::vector<std::size_t> passed(joints.size());
  std::size_t latest = 0;
  for (const std::size_t i : order) {
    latest = std::max(latest, i);
    passed[i] = latest;
    const auto& joint = joints[by_default[i]];
    const std::string_view by_removal = !joint.came_out              ? "never came out"
                                        : joint.came_out == last_out ? "came out last"
                                                                     : "reverse of removal";
    result.rows.push_back(
        {joint.code, fmt::format("{}{}{}", joint.bench ? "bench work; " : "", by_removal,
                                 stated_reasons(i, graph.waits_for[i], passed))});
  }
  return result;
}

std::string in_words(const JointCycle& cycle) {
  std::string text;
  for (const auto& link : cycle.links) {
    text += fmt::format("{}{} {} {}", text.empty() ? "" : ", ", link.code,
                        link.kind == Kind::Covers ? "covers" : "after", link.first);
  }
  return text;
}

}  // namespace plan
