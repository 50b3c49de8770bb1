#include "audit/together.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "audit/audit.h"
#include "audit/flag.h"
#include "record/address.h"

namespace audit {
namespace {

// Sentences beyond these are told by their positions alone.
constexpr std::size_t kMostTold = 6;

// The causes that all of them have; a fact of one alone names its position.
std::vector<Cause> common_causes(const std::vector<Deviation*>& members) {
  std::vector<Cause> common;
  for (auto cause : members.front()->causes) {
    bool has_one_fact = true;
    const bool is_common = std::ranges::all_of(members, [&](const Deviation* member) {
      const auto same = std::ranges::find(member->causes, cause.says, &Cause::says);
      if (same == member->causes.end()) return false;
      has_one_fact = has_one_fact && same->fact == cause.fact;
      if (same->weight == Weight::Possible) cause.weight = Weight::Possible;
      return true;
    });
    if (!is_common) continue;
    if (!has_one_fact) {
      cause.fact = fmt::format("of {}: {}", *members.front()->position, cause.fact);
    }
    common.push_back(std::move(cause));
  }
  std::ranges::stable_sort(common, {}, &Cause::weight);
  return common;
}

// What the members say is taken out of them.
Deviation group_of(const Case& subject, const Rule& rule, const std::vector<Deviation*>& members) {
  auto causes = common_causes(members);
  std::vector<Part> parts;
  std::vector<int> positions;
  for (auto* member : members) {
    parts.push_back(std::move(member->parts.front()));
    positions.push_back(*member->position);
  }
  Deviation group = std::move(*members.front());
  group.causes = std::move(causes);
  group.parts = std::move(parts);
  group.positions = std::move(positions);
  std::ranges::stable_sort(group.parts, {}, &Part::position);
  std::ranges::sort(group.positions);
  group.positions.erase(std::unique(group.positions.begin(), group.positions.end()),
                        group.positions.end());
  group.position.reset();
  group.id = fmt::format("{}:{}", dashed(rule.name), group.joint);
  if (!group.kind.empty()) group.id += ":" + group.kind;
  group.says = rule.together(subject, group);
  if (!group.what_to_do_at.empty()) {
    group.what_to_do = fmt::format(fmt::runtime(group.what_to_do_at),
                                   record::write_address(group.joint, group.positions));
  }
  return group;
}

}  // namespace

Deviations told_together(const Case& subject, Deviations each) {
  using Key = std::tuple<std::string, std::string, Level, std::string>;
  std::map<Key, std::vector<Deviation*>> alike;
  const auto key_of = [](const Deviation& deviation) {
    return Key{deviation.rule, record::folded_code(deviation.joint), deviation.level,
               deviation.kind};
  };
  const auto rule_of = [](const Deviation& deviation) -> const Rule& {
    return *std::ranges::find(rules(), deviation.rule, &Rule::name);
  };
  for (auto& deviation : each) {
    if (deviation.position && rule_of(deviation).together != nullptr) {
      alike[key_of(deviation)].push_back(&deviation);
    }
  }
  Deviations told;
  for (auto& deviation : each) {
    const auto found = alike.find(key_of(deviation));
    if (found == alike.end() || found->second.size() == 1 || !deviation.position) {
      told.push_back(std::move(deviation));
    } else if (found->second.front() == &deviation) {
      told.push_back(group_of(subject, rule_of(deviation), found->second));
    }
  }
  return told;
}

namespace {

std::string in_turn(const Deviation& together) {
  std::vector<std::pair<std::string_view, std::vector<int>>> by_sentence;
  for (const auto& part : together.parts) {
    const auto same = std::ranges::find(by_sentence, std::string_view(part.says),
                                        &std::pair<std::string_view, std::vector<int>>::first);
    if (same == by_sentence.end()) {
      by_sentence.push_back({part.says, {*part.position}});
    } else {
      same->second.push_back(*part.position);
    }
  }
  std::string text;
  std::vector<int> rest;
  for (std::size_t i = 0; i < by_sentence.size(); ++i) {
    const auto& [sentence, positions] = by_sentence[i];
    if (i < kMostTold) {
      text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", record::write_positions(positions),
                          sentence);
    } else {
      rest.insert(rest.end(), positions.begin(), positions.end());
    }
  }
  if (rest.empty()) return text;
  std::ranges::sort(rest);
  return fmt::format("{}; and {} likewise", text, record::write_positions(rest));
}

}  // namespace

std::string each_in_turn(const Case& /*subject*/, const Deviation& together) {
  return in_turn(together);
}

Deviation narrowed(const Deviation& together, const std::vector<int>& positions) {
  auto some = together;
  std::erase_if(some.parts, [&](const Part& part) {
    return !part.position || std::ranges::find(positions, *part.position) == positions.end();
  });
  some.positions.clear();
  some.settled = nullptr;
  bool is_open = false;
  for (const auto& part : some.parts) {
    some.positions.push_back(*part.position);
    is_open = is_open || part.settled == nullptr;
    if (part.settled == nullptr) continue;
    const bool is_later =
        some.settled == nullptr || some.settled->stamp.id < part.settled->stamp.id;
    if (is_later) some.settled = part.settled;
  }
  if (is_open) some.settled = nullptr;
  some.id =
      fmt::format("{}:{}", dashed(some.rule), record::write_address(some.joint, some.positions));
  some.says = in_turn(some);
  return some;
}

}  // namespace audit
