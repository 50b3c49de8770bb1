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
    // No nearer than their lengths are: a word of any length is answered at once.
    const auto [shorter, longer] = std::minmax({typed.size(), candidate.size()});
    if (longer - shorter >= best_distance) continue;
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

namespace {

// "J02/2" for "J02-2": the address that is meant where a hyphen stands for the stroke; empty where
// the part before it is no joint here.
std::string address_meant(std::string_view code, const std::vector<std::string>& known) {
  for (auto dash = code.find('-'); dash != std::string_view::npos;
       dash = code.find('-', dash + 1)) {
    const auto positions = code.substr(dash + 1);
    if (positions.find_first_not_of("0123456789-") != std::string_view::npos) continue;
    for (const auto& each : known) {
      if (!record::same_code(each, code.substr(0, dash))) continue;
      try {
        const auto meant = record::read_address(fmt::format("{}/{}", each, positions));
        return fmt::format("{}/{}", meant.joint, record::write_positions(meant.positions));
      } catch (const failure::InputError&) {
        continue;
      }
    }
  }
  return {};
}

}  // namespace

std::string no_such_joint(const std::string& code, const std::vector<std::string>& known) {
  const auto meant = address_meant(code, known);
  return fmt::format(
      "there is no joint {} in this logbook{}", quantity::quoted(code),
      meant.empty() ? suggestion(code, known) : fmt::format("; did you mean {}?", meant));
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
