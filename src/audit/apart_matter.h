#pragma once

#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "audit/rule.h"
#include "audit/statement.h"

namespace audit {

// For the rules about what was written on both sides while copies of the logbook were apart, by
// people who had not seen each other's lines (record/apart.h).

// "line 9 (LM)": a line as one side of a contradiction. Its id is the evidence: a third one is
// another matter.
[[nodiscard]] Statement side(const record::Stamp& stamp);

// A deviation of the job with an id that is made of the rule and some words.
[[nodiscard]] Deviation flag_matter(const Rule& rule, Level level, std::string_view matter,
                                    Statement says, std::string what_to_do);

// Whether a joint of this code was entered in two copies, and not the same (kTwoMeanings).
[[nodiscard]] bool has_two_meanings(const record::Job& job, std::string_view joint);

template <class Kind>
using Entries = std::vector<const record::Entry<Kind>*>;

// The entries of one matter by its key; of lines that were never apart from others none.
template <class Kind, class Key>
std::map<std::string, Entries<Kind>> by_matter(const record::Job& job, const Key& key) {
  std::map<std::string, Entries<Kind>> matters;
  for (const auto& entry : record::entries_of<Kind>(job)) {
    if (job.apart.has(entry.stamp.id)) matters[key(entry.content)].push_back(&entry);
  }
  return matters;
}

// Those that differ from another one that was written apart from them; by `differ`.
template <class Kind, class Differ>
Entries<Kind> contradicting(const record::Job& job, const Entries<Kind>& entries,
                            const Differ& differ) {
  Entries<Kind> found;
  for (const auto* one : entries) {
    const bool is_one = std::ranges::any_of(entries, [&](const auto* other) {
      return one != other && job.apart.are_apart(one->stamp, other->stamp) &&
             differ(one->content, other->content);
    });
    if (is_one) found.push_back(one);
  }
  return found;
}

// Whether somebody who had seen all of them said it anew in a later line.
template <class Kind>
bool is_said_anew(const record::Job& job, const Entries<Kind>& sides, const Entries<Kind>& all) {
  return std::ranges::any_of(all, [&](const auto* later) {
    return std::ranges::all_of(sides, [&](const auto* side) {
      return later->stamp.id > side->stamp.id && !job.apart.are_apart(later->stamp, side->stamp);
    });
  });
}

template <class Kind, class Same>
Entries<Kind> all_alike(const record::Job& job, const Same& same) {
  Entries<Kind> all;
  for (const auto& entry : record::entries_of<Kind>(job)) {
    if (same(entry.content)) all.push_back(&entry);
  }
  return all;
}

}  // namespace audit
