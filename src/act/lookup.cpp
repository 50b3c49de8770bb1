#include "act/lookup.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "failure/failure.h"
#include "quantity/ascii.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace act {
namespace {

using quantity::lower;

// Levenshtein distance over letters of either case: insertions, deletions and substitutions.
std::size_t distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t substituted = diagonal + (lower(a[i - 1]) == lower(b[j - 1]) ? 0U : 1U);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, substituted});
    }
  }
  return row[b.size()];
}

}  // namespace

std::string nearest(std::string_view typed, const std::vector<std::string>& known) {
  std::string best;
  std::size_t best_distance = std::max<std::size_t>(1, typed.size() / 3) + 1;
  for (const auto& candidate : known) {
    const std::size_t this_distance = distance(typed, candidate);
    if (this_distance < best_distance) {
      best_distance = this_distance;
      best = candidate;
    }
  }
  return best;
}

std::string suggestion(std::string_view typed, const std::vector<std::string>& known) {
  const std::string near = nearest(typed, known);
  return near.empty() ? "" : fmt::format("; did you mean {}?", near);
}

std::string no_such_joint(const std::string& code, const std::vector<std::string>& known) {
  return fmt::format("there is no joint {} in this logbook{}", quantity::quoted(code),
                     suggestion(code, known));
}

std::string no_such_wrench(const std::string& name, const std::vector<std::string>& known) {
  std::string names;
  for (const auto& each : known) names += (names.empty() ? "" : ", ") + each;
  return fmt::format(
      "there is no wrench {} in this logbook{}", quantity::quoted(name),
      names.empty() ? "; enter it first: wrench NAME --range ..." : "; known are " + names);
}

record::Entry<record::Joint> joint_or_refuse(const logbook::Logbook& logbook,
                                             const std::string& code) {
  if (auto joint = logbook.joint(code)) return *std::move(joint);
  throw failure::Refusal(no_such_joint(code, logbook.joint_codes()));
}

record::Entry<record::Wrench> wrench_or_refuse(const logbook::Logbook& logbook,
                                               const std::string& name) {
  if (auto wrench = logbook.wrench(name)) return *std::move(wrench);
  throw failure::Refusal(no_such_wrench(name, logbook.wrench_names()));
}

record::Joint joint_at_or_refuse(const logbook::Logbook& logbook, const std::string& code,
                                 const std::vector<int>& positions) {
  auto joint = joint_or_refuse(logbook, code).content;
  check_positions(joint, positions);
  return joint;
}

void check_positions(const record::Joint& joint, const std::vector<int>& positions) {
  if (positions.empty()) {
    throw failure::InputError(fmt::format("{} names no position; write {}/1 or {}/1-{}", joint.code,
                                          joint.code, joint.code, joint.count));
  }
  if (const int highest = *std::ranges::max_element(positions); highest > joint.count) {
    throw failure::InputError(fmt::format("{} has the positions 1 to {}; {} is none of them",
                                          joint.code, joint.count, highest));
  }
}

}  // namespace act
