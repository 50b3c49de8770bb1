#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "finding/survey.h"

namespace plan {

// What the decisions that are current (record/current_decisions.h) ask for at one position. Those
// made before it last came out are past, but for a new fastener that has not gone in.
struct DecidedAt {
  const record::Stamp* renew = nullptr;  // the last decision on a new fastener
  // The old one was in when that was decided, or was put back against it, and has not come out
  // since: it has to.
  bool is_renewed_in_place = false;
  // An empty hole that stays empty, or one that never came out and stays as it is.
  const record::Stamp* left_alone = nullptr;
  // That it never came out, and is right so; nothing once it did.
  const record::Stamp* never_out = nullptr;
  std::set<std::string, std::less<>> as_is;  // rules of the audit that were settled to use as is
};

// The rules of the audit by name whose settling tells the plan something.
inline constexpr std::string_view kFoundEmptyRule = "found empty";
inline constexpr std::string_view kCountOutRule = "count out";
inline constexpr std::string_view kNeverOutRule = "never out";
inline constexpr std::string_view kOneTimeRule = "one-time fastener";
inline constexpr std::string_view kDamagedThreadRule = "damaged thread";
inline constexpr std::string_view kOtherFastenerRule = "other fastener";
inline constexpr std::string_view kOverstretchedRule = "overstretched";
inline constexpr std::string_view kBreakLooseRule = "break loose";
inline constexpr std::string_view kNotRenewedRule = "not renewed";

// The decisions by position.
class Decided {
 public:
  // Points into `job`.
  Decided(const record::Job& job, const finding::Survey& survey);

  // Nothing of it where nothing was decided.
  [[nodiscard]] const DecidedAt& at(std::string_view joint, int position) const;

 private:
  std::map<std::pair<std::string, int>, DecidedAt> places_;  // by folded code
};

}  // namespace plan
