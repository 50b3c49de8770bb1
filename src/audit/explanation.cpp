#include "audit/explanation.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "audit/joint_pattern.h"
#include "audit/rules.h"
#include "audit/wrench_pattern.h"
#include "finding/unit_slip.h"
#include "quantity/number_text.h"
#include "record/address.h"

namespace audit {
namespace {

using finding::Finding;
using finding::JointState;
using finding::PositionState;
using finding::Verdict;
using record::BreakLoose;

// Siblings are named one by one up to here; beyond, their number says enough.
constexpr std::size_t kMostNamed = 32;

// Collects the causes of one deviation.
class Causes {
 public:
  void likely(std::string says, std::string fact) {
    all_.push_back({Weight::Likely, std::move(says), std::move(fact)});
  }
  void possible(std::string says, std::string fact) {
    all_.push_back({Weight::Possible, std::move(says), std::move(fact)});
  }
  std::vector<Cause> take() {
    std::ranges::stable_sort(all_, {}, &Cause::weight);
    return std::move(all_);
  }

 private:
  std::vector<Cause> all_;
};

// The causes of one deviation of one joint.
class Explanation {
 public:
  Explanation(const JointCase& at, const std::map<const record::Wrench*, WrenchPattern>& wrenches)
      : at_(at), joint_(&at.joint), pattern_(&at.pattern), wrench_patterns_(wrenches) {}

  void explain(Deviation& deviation) {
    if (deviation.rule == kWholeJointOff.name) {
      deviation.causes = of_whole_joint();
      return;
    }
    if (!deviation.position || !is_about_found_torque(deviation)) return;
    position_ = &joint_->at(*deviation.position);
    deviation.causes = of_position();
  }

 private:
  static bool is_about_found_torque(const Deviation& deviation) {
    const auto rules = {&kFoundLow, &kFoundHigh, &kFoundUndecided, &kOutlier, &kOverstretched};
    return std::ranges::any_of(rules,
                               [&](const Rule* rule) { return deviation.rule == rule->name; });
  }

  std::vector<Cause> of_whole_joint() {
    Causes causes;
    const double ratio = *pattern_->median_ratio;
    const bool is_low = ratio < 1.0;
    unit(causes, ratio, true);
    if (is_low && speaks_of_gasket(*joint_->joint)) {
      causes.likely("the gasket has relaxed", fmt::format("it holds \"{}\"", joint_->joint->holds));
    }
    causes.likely(is_low ? "the faces have settled, or another specification was used"
                         : "another specification was used",
                  fmt::format("all {} findings lie about {:.2f} times the specification",
                              pattern_->found.size(), ratio));
    wrench(causes, *pattern_->found.front()->finding());
    condition(causes);
    return causes.take();
  }

  std::vector<Cause> of_position() {
    Causes causes;
    const Finding& finding = *position_->finding();
    const auto* compared = siblings_of(*pattern_, *position_);
    const bool is_low = finding.verdict == Verdict::Low ||
                        (finding.verdict != Verdict::High && compared != nullptr &&
                         share_of_median(*compared, *position_) < 1.0);
    break_loose(causes, finding, is_low);
    other_fastener(causes, finding);
    wrench(causes, finding);
    const bool is_one_of_few = siblings(causes, finding, is_low);
    // Who takes one unit for another does it for more than one fastener of a joint.
    if (finding.ratio && finding.verdict != Verdict::Within) {
      unit(causes, *finding.ratio, !is_one_of_few);
    }
    neighbours(causes, finding, is_low);
    if (finding.verdict == Verdict::Low || finding.verdict == Verdict::High) condition(causes);
    reading(causes, finding);
    return causes.take();
  }

  static void break_loose(Causes& causes, const Finding& finding, bool is_low) {
    if (finding.removal == nullptr) return;
    const auto broke = finding.removal->content.broke;
    if (broke == BreakLoose::AlreadyLoose) {
      causes.likely("it has worked loose", "it was loose before it was touched");
    } else if (!is_low && (broke == BreakLoose::Seized || broke == BreakLoose::Tight)) {
      causes.likely("rust, paint or adhesive held it besides its preload",
                    fmt::format("it broke loose {}", record::word_of(broke)));
    }
  }

  static void other_fastener(Causes& causes, const Finding& finding) {
    if (finding.removal == nullptr) return;
    const auto& removal = finding.removal->content;
    if (removal.other_length || !removal.other_size.empty() || !removal.other_grade.empty()) {
      causes.likely("another fastener was in the hole",
                    "what came out is recorded as not the joint's own");
    }
  }

  static void unit(Causes& causes, double ratio, bool may_be_likely) {
    const auto slip = finding::unit_slip(ratio);
    if (!slip) return;
    std::string says = "units were confused when it was tightened or when the number was entered";
    auto fact = fmt::format("{:.2f} times the specification, and {} taken for {} gives {:.3g}",
                            ratio, slip->meant, slip->taken, slip->factor);
    const bool is_close = finding::unit_slip(ratio, finding::kCloseToSlip).has_value();
    is_close&& may_be_likely ? causes.likely(std::move(says), std::move(fact))
                             : causes.possible(std::move(says), std::move(fact));
  }

  // What the other findings of the joint say: this one and few others, or all alike. True where
  // most of the others are within.
  bool siblings(Causes& causes, const Finding& finding, bool is_low) {
    const auto& found = pattern_->found;
    const auto* compared = siblings_of(*pattern_, *position_);
    if (found.size() < 3 || compared == nullptr) return false;
    if (is_off_by_one_ratio(*pattern_)) {
      causes.likely(is_low ? "the whole joint has settled, its gasket relaxed, or another "
                             "specification was used"
                           : "another specification was used for the whole joint",
                    fmt::format("all {} findings are about {:.2f} times the specification",
                                found.size(), *pattern_->median_ratio));
      return false;
    }
    const bool self_within = finding.verdict == Verdict::Within;
    const auto others = found.size() - 1;
    const auto within = static_cast<std::size_t>(pattern_->within) - (self_within ? 1U : 0U);
    const double share = share_of_median(*compared, *position_);
    if (within * 2 <= others || compared->found.size() < 3 || std::fabs(share - 1.0) <= kAlike) {
      return false;
    }
    const auto others_off = others - within;
    const std::string who = others_off == 0
                                ? "this fastener alone"
                                : fmt::format("this fastener, like {} more,", others_off);
    causes.likely(
        who + (is_low ? " has lost tension, or was never brought to it"
                      : " was overtightened, or is stuck"),
        fmt::format("{}; {}this one is {:.2f} of the joint's median", within_text(within),
                    compared->are_shares ? "by its share of what it is specified to, " : "",
                    share));
    return true;
  }

  std::string within_text(std::size_t within) {
    std::vector<int> named;
    if (pattern_->found.size() <= kMostNamed) {
      for (const auto* sibling : pattern_->found) {
        if (sibling == position_ || sibling->finding()->verdict != Verdict::Within) continue;
        named.push_back(sibling->position);
      }
    }
    if (named.empty()) return fmt::format("{} siblings are within", within);
    return fmt::format("siblings {}/{} are within", joint_->joint->code,
                       record::write_positions(named));
  }

  void wrench(Causes& causes, const Finding& finding) {
    const auto& name = finding.wrench->name;
    const auto day = record::local_day(finding.entry->stamp.done_at);
    if (record::is_out_of_calibration(*finding.wrench, day)) {
      causes.possible("the wrench reads wrong",
                      fmt::format("{} was out of calibration on the day", name));
    } else if (!finding.wrench->calibrated) {
      causes.possible("the wrench reads wrong",
                      fmt::format("{} has no calibration on record", name));
    }
    if (const auto* off =
            at_.whole.lookups->calibrations.found_off_after(name, finding.entry->stamp)) {
      causes.likely("the wrench read wrong", fmt::format("the calibration of {} found {} off by {}",
                                                         record::write_day(*off->calibrated), name,
                                                         quantity::write_exact(*off->found_off)));
    }
    const auto found = wrench_patterns_.find(finding.wrench);
    if (found == wrench_patterns_.end()) return;
    const auto& all = found->second;
    if (all.joints < 2 || !all.is_alike || std::fabs(all.median_ratio - 1.0) <= kAlike) return;
    causes.likely("the wrench reads wrong",
                  fmt::format("all {} findings of {} in {} joints are about {:.2f} times the "
                              "specification",
                              all.findings, name, all.joints, all.median_ratio));
  }

  void neighbours(Causes& causes, const Finding& finding, bool is_low) const {
    if (!is_low || finding.entry->content.neighbours != record::Neighbours::Slack) return;
    causes.possible("the part had eased before the test", "its neighbours were slack");
  }

  void condition(Causes& causes) const {
    const auto* specified =
        (position_ == nullptr ? joint_->positions.front() : *position_).specified;
    if (specified == nullptr || specified->condition != fastener::Condition::AsReceived) return;
    causes.possible("it was oiled where the source means dry, or the other way round",
                    "the specification states no condition");
  }

  static void reading(Causes& causes, const Finding& finding) {
    if (finding.verdict != Verdict::Undecided) return;
    const auto width = finding.torque.relative_half_width();
    if (width && finding::is_wider_than(*width, finding::kFineHalfWidth)) {
      causes.likely("the steps near the mark were too wide to tell",
                    fmt::format("the bracket is ±{:.0f} % wide", *width * 100.0));
    } else if (!width) {
      causes.likely("the readings stop before the mark was bracketed", "they give one bound only");
    } else {
      causes.possible("it lies near a limit, and the wrench and the method decide",
                      "the bracket itself is narrow");
    }
  }

  const JointCase& at_;
  const JointState* joint_;
  const JointPattern* pattern_;
  const std::map<const record::Wrench*, WrenchPattern>& wrench_patterns_;
  const PositionState* position_ = nullptr;
};

}  // namespace

Explainer::Explainer(const Case& subject) : wrench_patterns_(wrench_patterns(subject.survey)) {}

void Explainer::explain(const JointCase& at, Deviation& deviation) const {
  Explanation(at, wrench_patterns_).explain(deviation);
}

}  // namespace audit
