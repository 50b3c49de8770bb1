#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>

#include "audit/flag.h"
#include "audit/rules.h"
#include "finding/joint_index.h"
#include "progress/hold_point_state.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace audit {
namespace {

// Tells in an id what was done before a hold point was put up from what was done behind it.
constexpr const char* kBefore = ":before";

// What was done to one joint while one hold point was shut.
struct Passed {
  const record::HoldPoint* point = nullptr;
  const record::Stamp* put_up = nullptr;  // where nothing tells whether it stood before that
  std::set<int> positions;
  const record::Stamp* first = nullptr;  // by the time done
};

class PassedOver {
 public:
  explicit PassedOver(const Case& subject) : times_(subject.job), index_(subject.survey) {}

  void look_at(const std::string& code, const std::vector<int>& positions,
               const record::Stamp& stamp) {
    const auto joint = index_.place_of(code);
    if (!joint) return;
    for (const auto& state : times_.shut_before(code, stamp.done_at, stamp.id)) {
      auto& passed = passed_[{
          *joint, record::folded_code(state.point->code) + (state.is_yet_to_come ? kBefore : "")}];
      passed.point = state.point;
      if (state.is_yet_to_come) passed.put_up = state.put_up;
      passed.positions.insert(positions.begin(), positions.end());
      if (passed.first == nullptr || record::is_earlier(stamp, *passed.first)) {
        passed.first = &stamp;
      }
    }
  }

  // By place of the joint and folded code of the hold point.
  [[nodiscard]] const std::map<std::pair<std::size_t, std::string>, Passed>& all() const {
    return passed_;
  }

 private:
  progress::HoldPointTimes times_;
  finding::JointIndex index_;
  std::map<std::pair<std::size_t, std::string>, Passed> passed_;
};

// Work dated before the hold point was put up, by a line that was written after it.
Deviation may_have_stood(const finding::JointState& joint, const Passed& passed,
                         const std::vector<int>& which) {
  const auto& point = *passed.point;
  return flag_part(
      kHoldPoint, Level::Hold, joint, point.code + kBefore,
      says("{} was worked on (line {}) before hold point {} ({}) was put up (line {}), but written "
           "after it: nothing tells whether it stood then",
           as::numbers(which), as::line(*passed.first), as::name(point.code), as::name(point.what),
           as::line(*passed.put_up)),
      fmt::format("enter the hold point again with the time from which it stood, such as this, and "
                  "have it passed: hold-point {} --what {} --at {} --replace {} --why \"its own "
                  "time\"",
                  point.code, quantity::quoted(point.what),
                  record::write_utc(passed.put_up->done_at), passed.put_up->line));
}

// Every deed on a fastener counts; a look at a stripe touches nothing.
void hold_point(const Case& subject, std::vector<Deviation>& deviations) {
  const auto& job = subject.job;
  if (job.hold_points.empty()) return;
  PassedOver passed_over(subject);
  const auto look_at_all = [&](const auto& entries) {
    for (const auto& entry : entries) {
      passed_over.look_at(entry.content.joint, entry.content.positions, entry.stamp);
    }
  };
  look_at_all(job.removals);
  for (const auto& entry : job.tightenings) {
    if (record::is_skipped(entry.content)) continue;
    passed_over.look_at(entry.content.joint, entry.content.positions, entry.stamp);
  }
  look_at_all(job.stripes);
  const auto look_at_tests = [&](const auto& entries) {
    for (const auto& entry : entries) {
      passed_over.look_at(entry.content.joint, {entry.content.position}, entry.stamp);
    }
  };
  look_at_tests(job.findings);
  look_at_tests(job.pulls);
  for (const auto& [where, passed] : passed_over.all()) {
    const auto& point = *passed.point;
    const std::vector<int> which(passed.positions.begin(), passed.positions.end());
    if (passed.put_up != nullptr) {
      deviations.push_back(may_have_stood(subject.survey.joints[where.first], passed, which));
      deviations.back().positions = which;
      continue;
    }
    auto deviation = flag_part(
        kHoldPoint, Level::Hold, subject.survey.joints[where.first], point.code,
        says("{} was worked on behind hold point {} ({}), which was not passed at that time "
             "(line {})",
             as::numbers(which), as::name(point.code), as::name(point.what),
             as::line(*passed.first)),
        "stop, make it safe and have it passed by a named person; if it had been, strike the line "
        "and enter it with its right time");
    deviation.positions = which;
    deviations.push_back(std::move(deviation));
  }
}

}  // namespace

constinit const Rule kHoldPoint{"hold point",
                                "work behind a hold point that was not passed at that time",
                                hold_point, RestsOn{.removals = true, .tightenings = true}};

}  // namespace audit
